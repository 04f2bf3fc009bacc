package tracksoak.bench.rig;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/**
 * The folder a rig lives in, with the lock that lets only one rig exist on this machine at a time, and the sweep of what a
 * killed test left behind. Whoever holds the lock may take down anything found here.
 */
final class RigFolder implements AutoCloseable {

    private static final Path BASE = Path.of(System.getProperty("java.io.tmpdir"), "tracksoak-rig");
    private static final long LOCK_LIMIT_MS = 480_000;

    private final FileChannel channel;
    private final Path path;

    private RigFolder(FileChannel channel, Path path) {
        this.channel = channel;
        this.path = path;
    }

    /** Waits for the lock, sweeps, and makes a fresh folder. */
    static RigFolder fresh() {
        try {
            Files.createDirectories(BASE);
            FileChannel channel =
                    FileChannel.open(BASE.resolve("lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
            // the lock lasts until the channel is closed, or the process dies
            if (!Host.await(LOCK_LIMIT_MS, () -> locks(channel))) {
                channel.close();
                throw new IllegalStateException("another rig is in use: " + BASE);
            }
            sweep();
            return new RigFolder(channel, Files.createTempDirectory(BASE, "rig-"));
        } catch (IOException e) {
            throw new UncheckedIOException("cannot make a folder in " + BASE, e);
        }
    }

    private static boolean locks(FileChannel channel) {
        try {
            return channel.tryLock() != null;
        } catch (OverlappingFileLockException e) {
            return false;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    Path path() {
        return path;
    }

    /** Takes down whatever still stands here, in order: mounts on devices, devices, mounts of backends, processes. */
    static void sweep() {
        processes().forEach(RigFolder::killDrive);
        for (Path point : Mounts.under(BASE)) {
            if (!point.endsWith("fuse")) {
                Mounts.unmount(point);
            }
        }
        loops().forEach(node -> Host.attempt(5, "losetup", "-d", "/dev/" + node));
        Mounts.under(BASE).forEach(Mounts::unmount);
        Host.await(2_000, () -> processes().isEmpty());
        processes().forEach(ProcessHandle::destroyForcibly);
        try (Stream<Path> folders = Files.list(BASE)) {
            folders.filter(Files::isDirectory).forEach(RigFolder::delete);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot sweep " + BASE, e);
        }
    }

    private static void killDrive(ProcessHandle process) {
        if (command(process.pid()).startsWith("nbdkit ")) {
            process.destroyForcibly();
        }
    }

    /** What a rig left behind, one line each; empty if it is all gone. */
    static List<String> leftovers() {
        List<String> left = new ArrayList<>();
        Mounts.under(BASE).forEach(point -> left.add("mount " + point));
        loops().forEach(node -> left.add("device " + node));
        processes().forEach(process -> left.add("process " + process.pid() + " " + command(process.pid())));
        return left;
    }

    /** Loop devices whose file lies here. */
    private static List<String> loops() {
        try (Stream<Path> nodes = Files.list(Path.of("/sys/block"))) {
            return nodes.filter(
                            node -> Host.text(node.resolve("loop/backing_file")).startsWith(BASE.toString()))
                    .map(node -> node.getFileName().toString())
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Processes other than this one that name a folder of ours; a dead one not yet reaped names nothing. */
    private static List<ProcessHandle> processes() {
        long own = ProcessHandle.current().pid();
        return ProcessHandle.allProcesses()
                .filter(process -> process.pid() != own)
                .filter(process -> command(process.pid()).contains(BASE + "/rig-"))
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

    /** Clears the folder and lets the next rig in. */
    @Override
    public void close() {
        try {
            delete(path);
        } finally {
            letNextIn();
        }
    }

    private void letNextIn() {
        try {
            channel.close();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
