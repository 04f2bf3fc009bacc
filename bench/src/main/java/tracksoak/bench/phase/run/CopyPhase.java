package tracksoak.bench.phase.run;

import java.io.IOException;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.timeleft.WorkAhead;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.report.record.facts.FillFacts.Ended;
import tracksoak.report.record.facts.PhaseKind;

/** Copies the show on, one file after another, as a finished show is put on a drive; it ends when all is there. */
final class CopyPhase extends FlatOutPhase {

    private final Budget expected;
    private final StreamTable show;

    /**
     * A copy to come.
     *
     * @param expected the budget as it was before the run
     */
    CopyPhase(Bench bench, String label, int pass, Budget expected) {
        super(bench, PhaseKind.COPY, label, pass, bench.request.plan().copyCapS());
        this.expected = expected;
        this.show = bench.table(bench.request.plan().copyS());
    }

    @Override
    long roomIn(long usableBytes) {
        return Math.max(0, usableBytes - bench.request.reserveBytes() - expected.mixBytes());
    }

    @Override
    void writeAll(BooleanSupplier stop) throws IOException {
        ChunkStamper stamper = bench.stamper(table);
        int perFile = bench.drive.roomUnitBytes();
        long left = room();
        boolean over = false;
        for (int stream = 0; stream < table.streams() && !over && !stop.getAsBoolean(); stream++) {
            files.begin(stream);
            left -= perFile;
            long rest = targetBytes(stream);
            while (rest > 0 && !over && !stop.getAsBoolean()) {
                int chunk = (int) Math.min(table.chunkBytes(stream), rest);
                if (chunk + perFile > left) {
                    finish(Ended.FULL);
                    over = true;
                    continue;
                }
                if (files.mustSplit(stream, chunk)) {
                    change(stream);
                    left -= perFile;
                }
                left -= chunk;
                rest -= chunk;
                over = append(stamper, stream, chunk);
            }
            files.finish(stream);
        }
        if (!over && !stop.getAsBoolean()) {
            finish(Ended.COPIED);
        }
        bench.drive.syncFolder();
    }

    private long targetBytes(int stream) {
        long unit = bench.drive.alignmentBytes();
        return (show.totalBytes(stream) + unit - 1) / unit * unit;
    }

    @Override
    long wantedBytes() {
        long bytes = 0;
        for (int stream = 0; stream < table.streams(); stream++) {
            bytes += targetBytes(stream);
        }
        return Math.min(room(), bytes);
    }

    /** It goes on whatever the rate does. */
    @Override
    @Nullable
    Ended endAfter(double[] rounds) {
        return null;
    }

    @Override
    boolean steady() {
        return true;
    }

    @Override
    double leftByRuleS(double elapsedS, double byBytesS, double bytesPerSecond) {
        return byBytesS;
    }

    @Override
    double beforehandS(WorkAhead ahead) {
        double seconds = ahead.pace.secondsToWrite((double) expected.copyBytes());
        if (seconds <= 0) {
            return seconds;
        }
        double capped = Math.min(seconds, bench.request.plan().copyCapS());
        ahead.leaves(expected.copyBytes() * capped / seconds);
        return capped;
    }
}
