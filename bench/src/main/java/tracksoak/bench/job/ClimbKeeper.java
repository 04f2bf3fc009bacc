package tracksoak.bench.job;

import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.climb.Climb;
import tracksoak.bench.climb.ClimbOrder;
import tracksoak.bench.climb.ClimbRunner.Purpose;
import tracksoak.bench.climb.Search;
import tracksoak.bench.phase.run.RunListener;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordFormats;

/** Keeps the record of a climb, and those of its sound-checks, while it goes on, and tells how it is getting on. */
final class ClimbKeeper implements Climb.Listener, TargetClimbRunner.Watcher {

    /** Between two runs, about, in s. */
    private static final double BETWEEN_S = 3;

    private final RunFolder files;
    private final ClimbOrder order;
    private final boolean virtual;
    private final JobListener listener;
    private @Nullable RunFiles check;
    private double fillS;

    ClimbKeeper(RunFolder files, ClimbOrder order, boolean virtual, JobListener listener) {
        this.files = files;
        this.order = order;
        this.virtual = virtual;
        this.listener = listener;
    }

    @Override
    public void begins(Purpose purpose, int value, Search.Left left) {
        double takes = left.takes() * (order.shortTakeS() + BETWEEN_S);
        double checks =
                left.checks() * (order.check().takeBeforeS() + order.check().takeAfterS() + 2 * fillS);
        listener.climbs(new ClimbLook(
                purpose, value, order.ladder().kind(), order.fillCapS(), virtual ? -1 : Math.rint(takes + checks)));
    }

    @Override
    public void snapshot(ClimbRecord soFar) {
        RecordFormats.CLIMB.save(files.record(), soFar);
    }

    @Override
    public RunListener before(Purpose purpose, int value) {
        RunFiles kept = purpose == Purpose.CHECK ? folderOf(value) : null;
        check = kept;
        return new RunKeeper(kept, listener, SystemClocks.NANO, !virtual);
    }

    /** A new folder for the run of a sound-check at so many tracks or Hz. */
    private RunFiles folderOf(int value) {
        Path free = files.folder().resolve("check-" + value);
        for (int again = 2; Files.exists(free); again++) {
            free = files.folder().resolve("check-" + value + "-" + again);
        }
        return RunFiles.in(free);
    }

    @Override
    public void after(Purpose purpose, RunRecord record) {
        listener.idle();
        RunFiles kept = check;
        if (kept != null) {
            kept.save(record);
        }
        fillS = record.phases().stream()
                .filter(phase -> phase.kind() == PhaseKind.FILL)
                .mapToDouble(PhaseFacts::seconds)
                .max()
                .orElse(fillS);
    }
}
