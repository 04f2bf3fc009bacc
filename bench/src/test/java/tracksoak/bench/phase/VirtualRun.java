package tracksoak.bench.phase;

import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.PassingDrive;
import tracksoak.bench.phase.run.Run;
import tracksoak.bench.phase.run.RunListener;
import tracksoak.bench.phase.run.RunRequest;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.bench.simulated.SimulatedDrive;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.HostFacts;
import tracksoak.report.record.facts.RunRecord;

/** What tests need to do runs on virtual time. */
public final class VirtualRun {

    public static final String ID = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f";
    public static final HostFacts HOST = new HostFacts("test", "test", null, 1, null, "test");

    private VirtualRun() {}

    /** Does a whole run that nobody watches. */
    public static RunRecord of(RunRequest request, SimulatedDrive drive, VirtualClock clock) {
        return new Run(request, TestTarget.onVirtualTime(drive, drive.facts(), clock), HOST, new Deaf()).call();
    }

    /** The same on a drive over which no probes are laid: their clusters would lie between those of the takes. */
    public static RunRecord withoutProbes(RunRequest request, SimulatedDrive drive, VirtualClock clock) {
        Drive unspread = new PassingDrive(drive) {
            @Override
            public Spreading spreading() {
                return Spreading.NONE;
            }
        };
        return new Run(request, TestTarget.onVirtualTime(unspread, drive.facts(), clock), HOST, new Deaf()).call();
    }

    /** A drive in memory of so many bytes. */
    public static DriveFacts memory(long bytes) {
        return DriveFacts.builder()
                .system(false)
                .model("memory")
                .sizeBytes(bytes)
                .bus("simulated")
                .folder("memory")
                .fileSystem("exfat")
                .fileSystemBytes(bytes)
                .freeBytes(bytes)
                .clusterBytes(4096L)
                .build();
    }

    /** Hears nothing. */
    public static class Deaf implements RunListener {
        @Override
        public void progress(Progress progress) {}

        @Override
        public void snapshot(RunRecord soFar) {}
    }
}
