package tracksoak.bench.phase;

import java.io.IOException;
import java.nio.ByteBuffer;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.DriveFile;
import tracksoak.bench.recorder.StreamTable;
import tracksoak.bench.stream.AlignedBuffer;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.report.record.PhaseFacts;
import tracksoak.report.record.PhaseKind;

/**
 * Writes a small file, reads it and deletes it, only to see how fast that goes: the time left of a run hangs on how fast
 * the drive reads, and without this nothing is read until near its end. Nothing is judged by it, and it leaves no phase
 * in the record unless the drive fails.
 */
final class FeelStep implements Step {

    /** No piece is begun once this much is written, in bytes. */
    private static final int BYTES = 8 << 20;

    /** A shorter run is over before anybody asks when, in s. */
    private static final double LEAST_TO_FORESEE_S = 60;

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
        return Math.max(plan.takeBeforeS(), Math.max(plan.takeAfterS(), plan.playbackS())) >= LEAST_TO_FORESEE_S;
    }

    /** Most it writes, its file's header twice, in bytes. */
    static long mostBytes(int alignment) {
        return BYTES + StreamTable.roundUp(PIECE, alignment) + 2L * alignment;
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
        int piece = StreamTable.roundUp(PIECE, unit);
        StreamFiles files = new StreamFiles(bench.drive, "feel", pass, bench.runNumber, 1, Long.MAX_VALUE);
        ChunkStamper stamper =
                new ChunkStamper(bench.runNumber, bench.request.seed(), bench.drive.keepsBodies(), piece, unit);
        files.begin(0);
        long from = bench.clock.nanoTime();
        long bytes = 0;
        while (bytes < BYTES && bench.clock.nanoTime() - from < MOST_NS) {
            files.append(0, stamper.stamp(0, pass, files.nextBlock(0), piece));
            bytes += piece;
        }
        double writingS = (bench.clock.nanoTime() - from) / 1e9;
        files.finish(0);
        WrittenFile written = files.written().get(0);
        double readingS = read(written, piece, unit);
        bench.drive.delete(written.name());
        bench.pace.felt(bytes, writingS, readingS);
    }

    /** Time to read all of it, in s. */
    private double read(WrittenFile written, int piece, int unit) throws IOException {
        bench.drive.forgetCached();
        ByteBuffer buffer = AlignedBuffer.allocate(piece, unit);
        try (DriveFile file = bench.drive.open(written.name())) {
            long from = bench.clock.nanoTime();
            for (long at = 0; at < written.dataBytes(); at += piece) {
                file.read(buffer.clear(), written.headerBytes() + at);
            }
            return (bench.clock.nanoTime() - from) / 1e9;
        }
    }
}
