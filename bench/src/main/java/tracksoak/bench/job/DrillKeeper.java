package tracksoak.bench.job;

import java.io.IOException;
import tracksoak.bench.phase.drill.DrillListener;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.json.RecordFormats;

/** Keeps the record of a drill while it goes on, and tells how it is getting on. */
final class DrillKeeper implements DrillListener {

    private final RunFolder files;
    private final JobListener listener;
    private boolean complained;

    DrillKeeper(RunFolder files, JobListener listener) {
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
            AtomicFile.write(files.record(), RecordFormats.DRILL.bytes(soFar));
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
