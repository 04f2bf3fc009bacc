package tracksoak.bench.phase;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.UUID;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.phase.run.Bench;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.phase.run.RunRequest;
import tracksoak.profiles.Key;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.SessionOverrides;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.DriveFacts;

/**
 * A real drive for the benchmarks: a new folder below {@code -Dtracksoak.folder} (the system's temporary folder unless
 * told), removed afterwards. With {@code -Dtracksoak.smoke=true} every benchmark writes next to nothing.
 */
final class RealFolder implements AutoCloseable {

    static final boolean SMOKE = Boolean.getBoolean("tracksoak.smoke");

    final Drive drive;
    private final Path folder;

    RealFolder() {
        try {
            String below = System.getProperty("tracksoak.folder", System.getProperty("java.io.tmpdir"));
            folder = Files.createTempDirectory(Path.of(below), "soak-benchmark");
            drive = RealDrive.open(folder);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The phases' bench on this drive. */
    Bench bench(Session session, Plan plan) {
        RunRequest request = new RunRequest(UUID.randomUUID().toString(), "benchmark", session, plan, 42, 60, 0);
        TestTarget target = new TestTarget(
                drive, DriveFacts.builder().build(), SystemClocks.NANO, SystemClocks.EPOCH, SystemClocks.PARK, false);
        return new Bench(request, drive, target, () -> false, (now, soFar) -> {});
    }

    /** A shipped session with another number of tracks. */
    static Session session(int tracks) {
        return SessionOverrides.none()
                .with(Key.COUNT, tracks)
                .applyTo(SessionCatalog.shipped().find("festival-64"));
    }

    /** Deletes what a round has written. */
    void clear() throws IOException {
        List<String> names = drive.list();
        for (String name : names) {
            drive.delete(name);
        }
    }

    /** CPU time of the whole process in ns. */
    static long cpuNs() {
        return ((com.sun.management.OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean())
                .getProcessCpuTime();
    }

    @Override
    public void close() {
        try {
            clear();
            drive.close();
            Files.delete(folder);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
