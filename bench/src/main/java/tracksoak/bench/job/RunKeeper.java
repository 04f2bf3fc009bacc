package tracksoak.bench.job;

import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.run.RunListener;
import tracksoak.bench.phase.run.Traffic;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;

/** Keeps the record of a run while it goes on, and tells how it is getting on. */
final class RunKeeper implements RunListener {

    /** On virtual time snapshots come far more often than a person can want them. */
    private static final long LEAST_BETWEEN_SAVES_NS = 5_000_000_000L;

    private final @Nullable RunFiles files;
    private final JobListener listener;
    private final NanoClock clock;
    private final boolean saveAll;
    private boolean saved;
    private long savedNs;
    private boolean complained;

    /**
     * @param files where the record is kept, null where it need not be
     * @param saveAll whether every snapshot is kept, as it is on real time
     */
    RunKeeper(@Nullable RunFiles files, JobListener listener, NanoClock clock, boolean saveAll) {
        this.files = files;
        this.listener = listener;
        this.clock = clock;
        this.saveAll = saveAll;
    }

    @Override
    public void before(Traffic traffic) {
        listener.before(traffic);
    }

    @Override
    public void progress(Progress progress) {
        listener.progress(progress);
    }

    @Override
    public void snapshot(RunRecord soFar) {
        RunFiles kept = files;
        if (kept == null) {
            return;
        }
        long now = clock.nanoTime();
        if (!saveAll && saved && now - savedNs < LEAST_BETWEEN_SAVES_NS) {
            return;
        }
        saved = true;
        savedNs = now;
        try {
            kept.saveRecord(soFar);
        } catch (RecordException refused) {
            if (!complained) {
                complained = true;
                listener.trouble(Problem.cannot(
                        refused.getMessage() + "; the run goes on", "make room there before the run ends"));
            }
        }
    }
}
