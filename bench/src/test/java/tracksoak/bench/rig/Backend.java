package tracksoak.bench.rig;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import tracksoak.bench.stream.Stamp;

/** The drive behind the device: nbdkit with our plugin, shown as a file by nbdfuse, in a session of its own. */
public final class Backend {

    private static final Path CONNECTIONS = Path.of("/sys/fs/fuse/connections");
    /** Byte of a block at which {@link Stamp#MAGIC} stands. */
    private static final int MAGIC_AT = 28;

    private static final String SOCKET = "socket";

    private final Path folder;
    private final Path fuse;
    private final Process process;
    private final int connection;
    private long arm;

    private Backend(Path folder, Path fuse, Process process, int connection) {
        this.folder = folder;
        this.fuse = fuse;
        this.process = process;
        this.connection = connection;
    }

    /** Starts a healthy drive of {@code bytes} with its files in {@code folder}. */
    static Backend start(Path folder, long bytes) {
        return start(folder, bytes, List.of());
    }

    /** The same with its blocks in {@code store}, which may hold those of a drive that was pulled. */
    static Backend start(Path folder, long bytes, Path store) {
        return start(folder, bytes, List.of("store=" + store));
    }

    private static Backend start(Path folder, long bytes, List<String> more) {
        try {
            Path fuse = Files.createDirectory(folder.resolve("fuse"));
            List<String> command = new ArrayList<>(
                    List.of("setsid", "nbdfuse", fuse.resolve("disk").toString(), "["));
            command.addAll(drive(folder, bytes));
            command.addAll(more);
            command.add("]");
            Process process = start(folder, fuse.resolve("disk"), command);
            return new Backend(folder, fuse, process, minor(Files.getAttribute(fuse, "unix:dev")));
        } catch (IOException e) {
            throw new UncheckedIOException("cannot start the backend in " + folder, e);
        }
    }

    /** Starts a healthy drive that is no file but is reached through {@link #socket}; ended by {@link #kill}. */
    static Backend served(Path folder, long bytes) {
        try {
            List<String> command = new ArrayList<>(drive(folder, bytes));
            command.addAll(
                    1, List.of("--foreground", "--unix", folder.resolve(SOCKET).toString()));
            return new Backend(folder, folder, start(folder, folder.resolve(SOCKET), command), 0);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot start the backend in " + folder, e);
        }
    }

    private static List<String> drive(Path folder, long bytes) {
        Host.write(folder.resolve("control"), Faults.none().control(0));
        return List.of(
                "nbdkit",
                "--exit-with-parent",
                CSource.plugin().toString(),
                "size=" + bytes,
                "control=" + folder.resolve("control"),
                "log=" + folder.resolve("log"),
                "mark=" + Stamp.MAGIC,
                "mark_at=" + MAGIC_AT);
    }

    private static Process start(Path folder, Path shown, List<String> command) throws IOException {
        Process process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectInput(Path.of("/dev/null").toFile())
                .redirectOutput(folder.resolve("backend.out").toFile())
                .start();
        if (!Host.await(10_000, () -> Files.exists(shown) || !process.isAlive()) || !process.isAlive()) {
            kill(process);
            throw new IllegalStateException("the backend did not start: " + Host.text(folder.resolve("backend.out")));
        }
        return process;
    }

    /** Minor device number as {@code makedev} packs it: bits 0–7 and 20–31. */
    private static int minor(Object device) {
        long number = ((Number) device).longValue();
        return (int) ((number & 0xff) | ((number >> 12) & 0xfff00));
    }

    /** Where the drive speaks the protocol of network block devices. */
    Path socket() {
        return folder.resolve(SOCKET);
    }

    /** The whole drive as a file. */
    Path disk() {
        return fuse.resolve("disk");
    }

    /** Tells the drive what is wrong with it from now on; holds for the next request and those waiting in a hang. */
    public synchronized void set(Faults faults) {
        Path next = folder.resolve("control.next");
        Host.write(next, faults.control(++arm));
        try {
            Files.move(next, folder.resolve("control"), StandardCopyOption.ATOMIC_MOVE);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot tell the drive its faults", e);
        }
    }

    /** Everything the drive has been asked so far. */
    public RequestLog log() {
        return RequestLog.read(folder.resolve("log"));
    }

    /** Cuts the drive off: every request under way and every later one fails at once. Starts no process. */
    void cut() {
        Path abort = CONNECTIONS.resolve(connection + "/abort");
        if (Files.exists(abort)) {
            Host.write(abort, "1");
        } else {
            kill();
        }
    }

    /** Ends the processes by force, the drive's own before the one that shows it. */
    void kill() {
        kill(process);
    }

    private static void kill(Process process) {
        try (Stream<ProcessHandle> children = process.descendants()) {
            children.forEach(ProcessHandle::destroyForcibly);
        }
        process.destroyForcibly();
    }

    /** Takes the file away and ends the processes. */
    void stop() {
        Mounts.unmount(fuse);
        try {
            if (!process.waitFor(5, TimeUnit.SECONDS)) {
                kill();
                process.waitFor(5, TimeUnit.SECONDS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            kill();
        }
    }

    /** Makes sure that {@link #cut} works: the kernel's list of FUSE connections must be mounted. */
    static void showConnections() {
        if (!Mounts.isMounted(CONNECTIONS)) {
            Host.run("mount", "-t", "fusectl", "fusectl", CONNECTIONS.toString());
        }
    }
}
