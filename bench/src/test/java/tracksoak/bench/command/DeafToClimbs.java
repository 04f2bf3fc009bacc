package tracksoak.bench.command;

import tracksoak.bench.climb.Climb;
import tracksoak.bench.climb.ClimbRunner.Purpose;
import tracksoak.bench.climb.Search;
import tracksoak.bench.job.TargetClimbRunner;
import tracksoak.bench.phase.run.RunListener;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.RunRecord;

/** Hears nothing of a climb and its runs. */
final class DeafToClimbs implements RunListener, TargetClimbRunner.Watcher, Climb.Listener {

    @Override
    public void progress(Progress progress) {}

    @Override
    public void snapshot(RunRecord soFar) {}

    @Override
    public RunListener before(Purpose purpose, int value) {
        return this;
    }

    @Override
    public void after(Purpose purpose, RunRecord record) {}

    @Override
    public void begins(Purpose purpose, int value, Search.Left left) {}

    @Override
    public void snapshot(ClimbRecord soFar) {}
}
