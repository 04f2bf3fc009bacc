package tracksoak.bench.phase.run;

import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.timeleft.Forecast;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/** Deletes the run's own files to make room for what comes next. Leaves a phase in the record only if the drive fails. */
final class ClearStep implements Step {

    private final Bench bench;
    private final FilesOnDrive onDrive;
    private final PhaseKind before;

    /**
     * Clears the run's folder.
     *
     * @param before what the room is made for
     */
    ClearStep(Bench bench, FilesOnDrive onDrive, PhaseKind before) {
        this.bench = bench;
        this.onDrive = onDrive;
        this.before = before;
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
        PhaseFacts failed = bench.ask(before, () -> {
            for (WrittenFile file : onDrive.all()) {
                bench.drive.delete(file.name());
            }
            bench.drive.syncFolder();
        });
        if (failed == null) {
            onDrive.cleared();
        }
        return failed;
    }
}
