package tracksoak.bench.job;

import java.util.Optional;
import tracksoak.bench.phase.drill.DrillPort;
import tracksoak.bench.simulated.SimulatedDrive;

/** The port a simulated drive is plugged into: it is pulled on time and plugged in again at once. */
final class SimulatedDrillPort implements DrillPort {

    private final SimulatedDrive drive;
    private final String folder;

    SimulatedDrillPort(SimulatedDrive drive, String folder) {
        this.drive = drive;
        this.folder = folder;
    }

    @Override
    public void pullAt(long clockNs) {
        drive.pullAt(clockNs);
    }

    @Override
    public boolean unreachable() {
        return false;
    }

    @Override
    public Optional<Back> look() {
        return Optional.of(new Back(drive.pluggedInAgain(), null, null, folder, false, true));
    }
}
