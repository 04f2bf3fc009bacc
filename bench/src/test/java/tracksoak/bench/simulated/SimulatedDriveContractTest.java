package tracksoak.bench.simulated;

import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.DriveContractTest;
import tracksoak.profiles.base.VirtualClock;

/** The contract of every drive, on a simulated one that makes use of every part but the lies. */
class SimulatedDriveContractTest extends DriveContractTest {

    @Override
    protected Drive emptyDrive() {
        DriveModel model = DriveModel.of(
                "contract",
                "for the contract",
                7,
                64 << 20,
                new FastCache(60_000_000, 10_000_000, 90_000_000, 4 << 20, 1_000_000, true),
                new Jitter(100),
                new AllocationCost(1000, 1000, 10, 10),
                new RandomStalls(1_000_000_000, 1_000_000, 100_000_000, 1.5),
                new SerialFlush(1_000_000, 20_000_000, 4 << 20),
                new Ageing(1 << 30, 0));
        return model.plug(new VirtualClock(0), 60_000_000_000L);
    }
}
