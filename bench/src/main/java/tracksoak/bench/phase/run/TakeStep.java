package tracksoak.bench.phase.run;

import tracksoak.bench.phase.timeleft.Forecast;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/** Records in real time. */
final class TakeStep implements Step {

    private final Bench bench;
    private final FilesOnDrive onDrive;
    private final TakePhase take;
    private final double seconds;
    private final double room;

    /**
     * A take to come.
     *
     * @param room most it can leave on the drive, as expected before the run, in bytes
     */
    TakeStep(Bench bench, FilesOnDrive onDrive, TakePhase take, double seconds, double room) {
        this.bench = bench;
        this.onDrive = onDrive;
        this.take = take;
        this.seconds = seconds;
        this.room = room;
    }

    @Override
    public PhaseKind kind() {
        return PhaseKind.TAKE;
    }

    @Override
    public double expectedS(Forecast ahead) {
        double most = Math.min(room, take.room());
        ahead.leaves(Math.min(most, seconds * bench.request.session().bytesPerSecond()));
        return seconds;
    }

    @Override
    public PhaseFacts go() {
        onDrive.opens(take.files());
        return take.take();
    }
}
