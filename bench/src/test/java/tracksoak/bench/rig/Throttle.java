package tracksoak.bench.rig;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/**
 * The kernel's own limit on what one process may write to one device (cgroup v1 {@code blkio.throttle} or v2
 * {@code io.max}): a rate that no code of ours keeps. Works on direct I/O.
 */
final class Throttle implements AutoCloseable {

    private static final Path V1 = Path.of("/sys/fs/cgroup/blkio");
    private static final Path V2 = Path.of("/sys/fs/cgroup");
    private static final String V1_RATE = "blkio.throttle.write_bps_device";
    private static final String V2_CONTROL = "cgroup.subtree_control";

    private final Path group;
    private final Path home;

    private Throttle(Path group, Path home) {
        this.group = group;
        this.home = home;
    }

    /** Why this machine cannot throttle, empty if it can. */
    static Optional<String> missing() {
        return usable().isPresent() ? Optional.empty() : Optional.of("a writable cgroup with blkio.throttle or io.max");
    }

    private static Optional<Cgroups> usable() {
        return Cgroups.usable(
                Files.isWritable(V1.resolve(V1_RATE)),
                Host.text(V2.resolve("cgroup.controllers")),
                Files.isWritable(V2.resolve(V2_CONTROL)));
    }

    /** Puts this whole process under a limit of {@code bytesPerSecond} on writes to {@code device}. */
    static Throttle thisProcess(Loop device, long bytesPerSecond) {
        Cgroups kind = usable().orElseThrow(() -> new IllegalStateException("no cgroup here throttles"));
        try {
            Path root = kind == Cgroups.V1 ? V1 : V2;
            if (kind == Cgroups.V2) {
                Host.write(V2.resolve(V2_CONTROL), "+io");
            }
            Path home = root.resolve(kind.groupIn(Host.text(Path.of("/proc/self/cgroup"))));
            Path group = Files.createDirectories(
                    root.resolve("tracksoak-rig-" + ProcessHandle.current().pid()));
            // a container may see paths of the host, which lead nowhere in it
            Throttle throttle = new Throttle(group, Files.exists(home.resolve("cgroup.procs")) ? home : root);
            if (kind == Cgroups.V1) {
                Host.write(group.resolve(V1_RATE), device.numbers() + " " + bytesPerSecond);
            } else {
                Host.write(group.resolve("io.max"), device.numbers() + " wbps=" + bytesPerSecond);
            }
            throttle.move(group);
            return throttle;
        } catch (IOException e) {
            throw new UncheckedIOException("cannot make a cgroup", e);
        }
    }

    private void move(Path to) {
        Host.write(
                to.resolve("cgroup.procs"),
                Long.toString(ProcessHandle.current().pid()));
    }

    @Override
    public void close() {
        move(home);
        try {
            Files.delete(group);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot remove " + group, e);
        }
    }
}
