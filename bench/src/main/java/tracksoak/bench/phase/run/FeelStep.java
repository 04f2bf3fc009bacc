package tracksoak.bench.phase.run;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.phase.timeleft.Forecast;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.stream.AlignedBuffer;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/**
 * Writes some small files, reads them and deletes them, only to see how fast that goes: the time left of a run hangs on how
 * fast the drive writes flat out and reads, and without this neither is tried until late. A first tiny file wakes a drive
 * that sleeps, and shows what a flush costs that has nothing to do; then files are written in turn as a fill does it (one,
 * where files are copied one after another), and what their flush takes beyond that is counted as writing. Nothing is judged
 * by it, and it leaves no phase in the record unless the drive fails.
 */
final class FeelStep implements Step {

    /** No piece is begun once this much is written, in bytes. */
    private static final int BYTES = 8 << 20;

    /** A shorter run is over before anybody asks when, in s. */
    private static final double LEAST_TO_FORESEE_S = 60;

    /** As many as the session has tracks: between many files a disk's heads jump further. */
    private static final int MOST_FILES = 32;

    private static final int PIECE = 256 << 10;
    private static final long MOST_NS = 1_000_000_000L;

    private final Bench bench;
    private final PhaseKind before;
    private final int pass;

    FeelStep(Bench bench, PhaseKind before, int pass) {
        this.bench = bench;
        this.before = before;
        this.pass = pass;
    }

    /** Whether a run of this plan is long enough for it. */
    static boolean isPartOf(Plan plan) {
        double longest =
                Math.max(Math.max(plan.takeBeforeS(), plan.takeAfterS()), Math.max(plan.copyS(), plan.playbackS()));
        return longest >= LEAST_TO_FORESEE_S;
    }

    /** Most it writes, each file's header twice, in bytes. */
    static long mostBytes(int alignment, int streams) {
        int files = 1 + Math.min(MOST_FILES, streams);
        return BYTES + 2L * StreamTable.roundUp(PIECE, alignment) + 2L * files * alignment;
    }

    @Override
    public PhaseKind kind() {
        return before;
    }

    @Override
    public double expectedS(Forecast ahead) {
        return 0;
    }

    @Override
    public @Nullable PhaseFacts go() {
        return bench.ask(before, this::feel);
    }

    private void feel() throws IOException {
        int unit = bench.drive.alignmentBytes();
        int piece = StreamTable.roundUp(Math.min(PIECE, bench.streams().get(0).chunkBytes()), unit);
        ChunkStamper stamper =
                new ChunkStamper(bench.runNumber, bench.request.seed(), bench.drive.keepsBodies(), piece, unit);
        StreamFiles tiny = files("wake", 1);
        tiny.begin(0);
        tiny.append(0, stamper.stamp(0, pass, 0, piece));
        double idleFlushS = finish(tiny);
        boolean copied = bench.request.plan().copyS() > 0;
        StreamFiles files =
                files("feel", copied ? 1 : Math.min(MOST_FILES, bench.streams().size()));
        for (int stream = 0; stream < files.streams(); stream++) {
            files.begin(stream);
        }
        long from = bench.clock.nanoTime();
        long bytes = 0;
        for (int turn = 0; bytes < BYTES && bench.clock.nanoTime() - from < MOST_NS; turn++) {
            int stream = turn % files.streams();
            files.append(stream, stamper.stamp(stream, pass, files.nextBlock(stream), piece));
            bytes += piece;
        }
        double writingS = (bench.clock.nanoTime() - from) / 1e9;
        double flushingS = Math.max(0, finish(files) - files.streams() * idleFlushS);
        bench.drive.forgetCached();
        double readingS = 0;
        for (WrittenFile written : files.written()) {
            readingS += read(written, unit);
        }
        for (StreamFiles each : List.of(tiny, files)) {
            for (WrittenFile written : each.written()) {
                bench.drive.delete(written.name());
            }
        }
        bench.pace.felt(bytes, writingS + flushingS, readingS);
    }

    private StreamFiles files(String label, int streams) {
        return new StreamFiles(bench.drive, label, pass, bench.runNumber, streams, Long.MAX_VALUE);
    }

    /** Time to flush and close them, in s. */
    private double finish(StreamFiles files) throws IOException {
        long from = bench.clock.nanoTime();
        for (int stream = 0; stream < files.streams(); stream++) {
            files.finish(stream);
        }
        return (bench.clock.nanoTime() - from) / 1e9;
    }

    /** Time to read all of it as a read-back does, in s. */
    private double read(WrittenFile written, int unit) throws IOException {
        ByteBuffer buffer = AlignedBuffer.allocate(Math.max(ReadBackPhase.PIECE, unit), unit);
        try (DriveFile file = bench.drive.open(written.name())) {
            long from = bench.clock.nanoTime();
            for (long at = 0; at < written.dataBytes(); at += buffer.capacity()) {
                long left = written.dataBytes() - at;
                int wanted = StreamTable.roundUp((int) Math.min(buffer.capacity(), left), unit);
                file.read(buffer.clear().limit(wanted), written.headerBytes() + at);
            }
            return (bench.clock.nanoTime() - from) / 1e9;
        }
    }
}
