package tracksoak.bench.command.drives;

import java.util.Iterator;
import tracksoak.bench.simulated.catalog.SimulatedDrives;

/** Names of the simulated drives, for help and completion. */
public final class SimulatedNames implements Iterable<String> {

    @Override
    public Iterator<String> iterator() {
        return SimulatedDrives.names().iterator();
    }
}
