package tracksoak.bench.command.qualify;

import org.jspecify.annotations.Nullable;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.ProgressDisplay;
import tracksoak.bench.job.RunFiles;
import tracksoak.bench.phase.run.RunListener;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.NanoClock;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordFile;

/** Shows how a run is getting on and keeps its record while it goes on. */
public final class RunWatch implements RunListener {

    /** On virtual time snapshots come far more often than a person can want them. */
    private static final long LEAST_BETWEEN_SAVES_NS = 5_000_000_000L;

    private final ProgressDisplay display;
    private final @Nullable RunFiles files;
    private final NanoClock clock;
    private final Console console;
    private final boolean saveAll;
    private boolean saved;
    private long savedNs;
    private boolean complained;

    /**
     * @param files where the record is kept, null where it need not be
     * @param saveAll whether every snapshot is kept, as it is on real time
     */
    public RunWatch(@Nullable RunFiles files, Console console, NanoClock clock, boolean saveAll) {
        this.display = new ProgressDisplay(console, clock);
        this.files = files;
        this.clock = clock;
        this.console = console;
        this.saveAll = saveAll;
    }

    @Override
    public void progress(Progress progress) {
        display.show(progress);
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
            RecordFile.save(kept.record(), soFar);
        } catch (RecordException refused) {
            if (!complained) {
                complained = true;
                display.clear();
                console.complain(
                        Inert.whole(refused.getMessage() + "; the run goes on"), "make room there before the run ends");
            }
        }
    }

    /** The run is over. */
    public void end() {
        display.clear();
    }
}
