package tracksoak.bench.phase.run;

import java.util.List;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.timeleft.WorkAhead;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.verdict.Exhausted;

/**
 * Leaves a drive alone for an hour that the fill has worn out, so that the take after it begins as a show does (own rule).
 * Leaves no phase in the record but if it is stopped.
 */
final class RestStep implements Step {

    private static final double REST_S = 3600;
    private static final long NAP_NS = TimeUnit.MILLISECONDS.toNanos(100);

    private final Bench bench;
    private long endNs;

    RestStep(Bench bench) {
        this.bench = bench;
    }

    /** Whether the last take shows that the fill before it had worn the drive out. */
    static boolean wornOut(Bench bench) {
        PhaseFacts take = null;
        boolean filled = false;
        int after = 0;
        for (PhaseFacts phase : bench.done) {
            filled |= phase.kind() == PhaseKind.FILL;
            if (filled && phase.kind() == PhaseKind.TAKE) {
                take = phase;
                after++;
            }
        }
        return take != null && after == 1 && Exhausted.is(bench.request.session(), take);
    }

    @Override
    public PhaseKind kind() {
        return PhaseKind.TAKE;
    }

    @Override
    public double expectedS(WorkAhead ahead) {
        if (endNs != 0) {
            return Math.max(0, (endNs - bench.clock.nanoTime()) / 1e9);
        }
        return wornOut(bench) ? REST_S : 0;
    }

    @Override
    public @Nullable PhaseFacts go() {
        if (!wornOut(bench)) {
            return null;
        }
        long startNs = bench.clock.nanoTime();
        endNs = startNs + Math.round(REST_S * 1e9);
        PhaseNotes notes = bench.notes(PhaseKind.TAKE);
        WatchedExecutor.Outcome rested = bench.executor.work(
                List.of(stop -> {
                    while (!stop.getAsBoolean() && bench.clock.nanoTime() < endNs) {
                        bench.waiter.waitUntil(
                                bench.virtual ? endNs : Math.min(endNs, bench.clock.nanoTime() + NAP_NS));
                    }
                }),
                () -> bench.tell(() -> now(startNs), notes::facts));
        if (rested.done()) {
            return null;
        }
        notes.seconds = (bench.clock.nanoTime() - startNs) / 1e9;
        notes.fault = bench.fault(rested, startNs, 0);
        return notes.facts();
    }

    private Bench.Now now(long startNs) {
        long now = bench.clock.nanoTime();
        return new Bench.Now((now - startNs) / 1e9, Math.max(0, (endNs - now) / 1e9), 0, 0, 0, 0, 0, 0, 0);
    }
}
