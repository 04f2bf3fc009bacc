package tracksoak.bench.rig;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A healthy drive made of an image file on this machine's disk: loop device and file system, mounted or not. Several can
 * exist at once. {@link #close} takes it down in order, whatever failed before.
 */
public final class LoopMount implements AutoCloseable {

    /** Those not wholly taken down, each with the thread whose test has it. */
    private static final long BUSY_MS = 5_000;

    private static final Map<Path, Thread> STANDING = new ConcurrentHashMap<>();

    private final Path base;
    private final Thread atExit = new Thread(this::close, "loop take-down");
    private @Nullable Loop loop;
    private boolean closed;

    private LoopMount(Path base) {
        this.base = base;
        STANDING.put(base, Thread.currentThread());
    }

    /** Those the test on this thread has made and not wholly taken down, one line each. */
    static List<String> leftovers() {
        return STANDING.entrySet().stream()
                .filter(standing -> standing.getValue() == Thread.currentThread())
                .map(standing -> "loop mount in " + standing.getKey())
                .toList();
    }

    /**
     * An empty ext4 of {@code mebibytes} MiB, at least 8, mounted.
     *
     * @param more options of mkfs.ext4
     */
    public static LoopMount ext4(int mebibytes, String... more) {
        String[] usual = {"mkfs.ext4", "-q", "-F", "-m", "0", "-E", "nodiscard,lazy_itable_init=0"};
        return made(
                mebibytes,
                List.of("mount"),
                Stream.concat(Arrays.stream(usual), Arrays.stream(more)).toArray(String[]::new));
    }

    /** An empty exFAT of {@code mebibytes} MiB, mounted through FUSE. */
    public static LoopMount exfat(int mebibytes) {
        return made(mebibytes, List.of("mount.exfat-fuse"), "mkfs.exfat");
    }

    /**
     * A file system of another kind, not mounted.
     *
     * @param mkfs command and options; the image is appended
     */
    public static LoopMount unmounted(int mebibytes, String... mkfs) {
        return made(mebibytes, List.of(), mkfs);
    }

    private static LoopMount made(int mebibytes, List<String> mount, String... mkfs) {
        LoopMount made;
        try {
            made = new LoopMount(Files.createTempDirectory("tracksoak-loop-"));
            Runtime.getRuntime().addShutdownHook(made.atExit);
            try (RandomAccessFile image = new RandomAccessFile(made.image().toFile(), "rw")) {
                image.setLength((long) mebibytes << 20);
            }
            Files.createDirectory(made.path());
        } catch (IOException e) {
            throw new UncheckedIOException("cannot make an image", e);
        }
        try {
            run(List.of(mkfs), made.image());
            made.loop = Loop.attach(made.image());
            if (!mount.isEmpty()) {
                run(mount, made.device(), made.path());
            }
            return made;
        } catch (RuntimeException e) {
            made.close();
            throw e;
        }
    }

    /** Mounts it anew so that it refuses writes. */
    public void refuseWrites() {
        run(List.of("mount", "-o", "remount,ro"), path());
    }

    /** Shows it at another place too, where nothing can be written; {@link #close} takes that away as well. */
    public Path readOnlyView() {
        Path view = base.resolve("a view");
        try {
            Files.createDirectory(view);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot make " + view, e);
        }
        run(List.of("mount", "--bind"), path(), view);
        run(List.of("mount", "-o", "remount,bind,ro"), view);
        return view;
    }

    /** Unmounts it; whoever looks at all mounts at that moment keeps it busy for as long. */
    public void unmount() {
        String[] umount = {"umount", path().toString()};
        if (!Host.await(BUSY_MS, () -> Host.attempt(BUSY_MS / 1000, umount).exit() == 0)) {
            Host.run(umount);
        }
    }

    /** Lets go of the image, so that the device has size 0. */
    public void detach() {
        if (!loop().detach()) {
            throw new IllegalStateException(device() + " is still in use");
        }
    }

    /** Where it is mounted. */
    public Path path() {
        return base.resolve("a drive");
    }

    /** Name of the device, for example {@code loop3}. */
    public String node() {
        return loop().node();
    }

    /** The block device. */
    public Path device() {
        return loop().device();
    }

    private Path image() {
        return base.resolve("image");
    }

    @Override
    public synchronized void close() {
        if (closed) {
            return;
        }
        closed = true;
        try {
            Runtime.getRuntime().removeShutdownHook(atExit);
        } catch (IllegalStateException e) {
            // the process is ending: this is the hook itself
        }
        try {
            Mounts.unmount(base.resolve("a view"));
            Mounts.unmount(path());
        } finally {
            try {
                if (loop != null) {
                    loop.detach();
                }
            } finally {
                delete();
            }
        }
    }

    private void delete() {
        try {
            Files.deleteIfExists(path());
            Files.deleteIfExists(base.resolve("a view"));
            Files.deleteIfExists(image());
            Files.deleteIfExists(base);
            if (loop == null || !loop.attached()) {
                STANDING.remove(base);
            }
        } catch (IOException e) {
            throw new UncheckedIOException("cannot clear " + base, e);
        }
    }

    Loop loop() {
        return Objects.requireNonNull(loop, "not attached yet");
    }

    private static void run(List<String> command, Path... operands) {
        Host.run(Stream.concat(command.stream(), Arrays.stream(operands).map(Path::toString))
                .toArray(String[]::new));
    }
}
