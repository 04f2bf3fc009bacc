package tracksoak.bench.command;

import java.util.Iterator;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.SimulatedDrives;

/** Names of the simulated drives, for help and completion. */
final class SimulatedNames implements Iterable<String> {

    @Override
    public Iterator<String> iterator() {
        return SimulatedDrives.all().stream().map(DriveModel::name).iterator();
    }
}
