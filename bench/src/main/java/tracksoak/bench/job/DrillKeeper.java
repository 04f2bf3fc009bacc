package tracksoak.bench.job;

import java.io.IOException;
import tracksoak.bench.phase.drill.DrillListener;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.drill.DrillRecord;

/** Keeps the record of a drill while it goes on, and tells how it is getting on. */
final class DrillKeeper implements DrillListener {

    private final DrillFiles files;
    private final JobListener listener;
    private boolean complained;

    DrillKeeper(DrillFiles files, JobListener listener) {
        this.files = files;
        this.listener = listener;
    }

    @Override
    public void stage(Stage stage) {
        listener.drills(stage);
    }

    @Override
    public void progress(Progress progress) {
        listener.progress(progress);
    }

    @Override
    public void snapshot(DrillRecord soFar) {
        try {
            files.saveRecord(soFar);
        } catch (IOException refused) {
            if (!complained) {
                complained = true;
                listener.trouble(Problem.cannot(
                        "the drill's record cannot be kept (" + Problem.reason(refused) + "); the drill goes on",
                        "make room there before it ends"));
            }
        }
    }
}
