package tracksoak.bench.rig;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The folder a rig lives in. One process at a time has rigs on this machine: who comes in first sweeps what a killed test left
 * behind; after that each rig takes down its own.
 */
final class RigFolder implements AutoCloseable {

    private static final Path BASE = Path.of(System.getProperty("java.io.tmpdir"), "tracksoak-rig");
    private static final long LOCK_LIMIT_MS = 480_000;

    /** Folders of this process, each with the thread whose test has it. */
    private static final Map<Path, Thread> STANDING = new HashMap<>();

    private static @Nullable FileChannel lock;

    private final Path path;

    private RigFolder(Path path) {
        this.path = path;
    }

    /** Waits for other processes to have no rig, and makes a fresh folder. */
    static RigFolder fresh() {
        synchronized (STANDING) {
            try {
                Files.createDirectories(BASE);
                if (STANDING.isEmpty()) {
                    lock = lock();
                    sweepAll();
                }
                Path path = Files.createTempDirectory(BASE, "rig-");
                STANDING.put(path, Thread.currentThread());
                return new RigFolder(path);
            } catch (IOException e) {
                throw new UncheckedIOException("cannot make a folder in " + BASE, e);
            }
        }
    }

    /** Lasts until it is closed, or the process dies. */
    private static FileChannel lock() throws IOException {
        FileChannel channel =
                FileChannel.open(BASE.resolve("lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
        if (!Host.await(LOCK_LIMIT_MS, () -> locks(channel))) {
            channel.close();
            throw new IllegalStateException("another process has a rig: " + BASE);
        }
        return channel;
    }

    private static boolean locks(FileChannel channel) {
        try {
            return channel.tryLock() != null;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    Path path() {
        return path;
    }

    /** Takes down whatever stands in any: nobody may have one. */
    static void sweepAll() {
        sweep(BASE);
    }

    /** Takes down whatever stands at or under {@code where}: mounts on devices, devices, mounts of backends, processes. */
    private static void sweep(Path where) {
        if (!Files.exists(where)) {
            return;
        }
        processes(where).forEach(RigFolder::killDrive);
        for (Path point : Mounts.under(where)) {
            if (!point.endsWith("fuse")) {
                Mounts.unmount(point);
            }
        }
        loops(where).forEach(node -> Host.attempt(5, "losetup", "-d", "/dev/" + node));
        Mounts.under(where).forEach(Mounts::unmount);
        Host.await(2_000, () -> processes(where).isEmpty());
        processes(where).forEach(ProcessHandle::destroyForcibly);
        try (Stream<Path> inside = Files.list(where)) {
            inside.filter(Files::isDirectory).forEach(RigFolder::delete);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot sweep " + where, e);
        }
    }

    private static void killDrive(ProcessHandle process) {
        if (command(process.pid()).startsWith("nbdkit ")) {
            process.destroyForcibly();
        }
    }

    /** What is left of rigs, one line each, save those that tests on other threads have; empty if all is gone. */
    static List<String> leftovers() {
        List<Path> others = new ArrayList<>(ofOthers());
        List<String> left = left(BASE);
        others.addAll(ofOthers()); // one may have begun meanwhile
        return left.stream()
                .filter(one -> others.stream().noneMatch(other -> one.contains(other.toString())))
                .toList();
    }

    private static List<Path> ofOthers() {
        synchronized (STANDING) {
            return STANDING.entrySet().stream()
                    .filter(standing -> standing.getValue() != Thread.currentThread())
                    .map(Map.Entry::getKey)
                    .toList();
        }
    }

    /** What is left of this rig, one line each. */
    List<String> left() {
        return left(path);
    }

    private static List<String> left(Path where) {
        List<String> left = new ArrayList<>();
        Mounts.under(where).forEach(point -> left.add("mount " + point));
        loops(where).forEach(node -> left.add("device " + node + " of " + backing(node)));
        for (ProcessHandle process : processes(where)) {
            String command = command(process.pid());
            // of one that has ended since nothing is left, and nothing tells whose it was
            if (!command.isBlank()) {
                left.add("process " + process.pid() + " " + command);
            }
        }
        return left;
    }

    /** Loop devices whose file lies at or under {@code where}. */
    private static List<String> loops(Path where) {
        try (Stream<Path> nodes = Files.list(Path.of("/sys/block"))) {
            return nodes.map(node -> node.getFileName().toString())
                    .filter(node -> backing(node).startsWith(where + "/"))
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String backing(String node) {
        return Host.text(Path.of("/sys/block", node, "loop", "backing_file"));
    }

    /** Processes other than this one that name something under {@code where}; a dead one not yet reaped names nothing. */
    private static List<ProcessHandle> processes(Path where) {
        long own = ProcessHandle.current().pid();
        return ProcessHandle.allProcesses()
                .filter(process -> process.pid() != own)
                .filter(process -> command(process.pid()).contains(where + "/"))
                .filter(process -> command(process.pid()).matches("(nbdkit|nbdfuse|mount.exfat-fuse|fusefat) .*")
                        || command(process.pid()).matches("\\S*/(mount.exfat-fuse|fusefat) .*"))
                .toList();
    }

    private static String command(long pid) {
        return Host.text(Path.of("/proc", Long.toString(pid), "cmdline")).replace('\0', ' ');
    }

    private static void delete(Path folder) {
        if (!Files.exists(folder) || !Mounts.under(folder).isEmpty()) {
            return;
        }
        try (Stream<Path> walk = Files.walk(folder)) {
            for (Path path : walk.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(path);
            }
        } catch (IOException e) {
            throw new UncheckedIOException("cannot clear " + folder, e);
        }
    }

    /** Takes down whatever still stands in it, and the folder; the last one of this process lets other processes in. */
    @Override
    public void close() {
        try {
            sweep(path);
            delete(path);
        } finally {
            synchronized (STANDING) {
                STANDING.remove(path);
                if (STANDING.isEmpty()) {
                    letOthersIn();
                }
            }
        }
    }

    private static void letOthersIn() {
        try {
            Objects.requireNonNull(lock).close();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
