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

    private final Path group;
    private final Path home;

    private Throttle(Path group, Path home) {
        this.group = group;
        this.home = home;
    }

    /** Why this machine cannot throttle, empty if it can. */
    static Optional<String> missing() {
        if (Files.isWritable(V1.resolve("blkio.throttle.write_bps_device"))) {
            return Optional.empty();
        }
        return Host.text(V2.resolve("cgroup.controllers")).contains("io")
                ? Optional.empty()
                : Optional.of("a writable cgroup with blkio.throttle or io.max");
    }

    /** Puts this whole process under a limit of {@code bytesPerSecond} on writes to {@code device}. */
    static Throttle thisProcess(Loop device, long bytesPerSecond) {
        try {
            String name = "tracksoak-rig-" + ProcessHandle.current().pid();
            boolean v1 = Files.isWritable(V1.resolve("blkio.throttle.write_bps_device"));
            if (!v1) {
                Host.write(V2.resolve("cgroup.subtree_control"), "+io");
            }
            Path home = v1 ? V1 : ownGroup();
            Path group = Files.createDirectories((v1 ? V1 : V2).resolve(name));
            Throttle throttle = new Throttle(group, home);
            if (v1) {
                Host.write(group.resolve("blkio.throttle.write_bps_device"), device.numbers() + " " + bytesPerSecond);
            } else {
                Host.write(group.resolve("io.max"), device.numbers() + " wbps=" + bytesPerSecond);
            }
            throttle.move(group);
            return throttle;
        } catch (IOException e) {
            throw new UncheckedIOException("cannot make a cgroup", e);
        }
    }

    /** Where this process is in the v2 tree. */
    private static Path ownGroup() {
        return Host.text(Path.of("/proc/self/cgroup"))
                .lines()
                .filter(line -> line.startsWith("0::"))
                .findFirst()
                .map(line -> V2.resolve(line.substring(4)))
                .orElse(V2);
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
