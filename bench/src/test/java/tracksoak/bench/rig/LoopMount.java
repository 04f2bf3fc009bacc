package tracksoak.bench.rig;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * A healthy drive made of an image file on this machine's disk: loop device and file system, mounted or not. Several can
 * exist at once. {@link #close} takes it down in order, whatever failed before.
 */
public final class LoopMount implements AutoCloseable {

    private static final long LIMIT_S = 20;

    private final Path base;
    private final Thread atExit = new Thread(this::close, "loop take-down");
    private String node = "";
    private boolean mounted;
    private boolean closed;

    private LoopMount(Path base) {
        this.base = base;
    }

    /** An empty ext4 of {@code mebibytes} MiB, at least 8, mounted. */
    public static LoopMount ext4(int mebibytes) {
        return made(
                mebibytes, List.of("mount"), "mkfs.ext4", "-q", "-F", "-m", "0", "-E", "nodiscard,lazy_itable_init=0");
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
            List<String> make = new ArrayList<>(List.of(mkfs));
            make.add(made.image().toString());
            run(make);
            String device = run(List.of(
                    "losetup", "-f", "--show", "--direct-io=on", made.image().toString()));
            made.node = device.substring(device.lastIndexOf('/') + 1);
            if (!mount.isEmpty()) {
                List<String> command = new ArrayList<>(mount);
                command.addAll(List.of(made.device().toString(), made.path().toString()));
                run(command);
                made.mounted = true;
            }
            return made;
        } catch (RuntimeException e) {
            made.close();
            throw e;
        }
    }

    /** Mounts it anew so that it refuses writes. */
    public void refuseWrites() {
        run(List.of("mount", "-o", "remount,ro", path().toString()));
    }

    /** Unmounts it. */
    public void unmount() {
        run(List.of("umount", path().toString()));
        mounted = false;
    }

    /** Lets go of the image, so that the device has size 0. */
    public void detach() {
        run(List.of("losetup", "-d", device().toString()));
        node = "";
    }

    /** Where it is mounted. */
    public Path path() {
        return base.resolve("a drive");
    }

    /** Name of the device, for example {@code loop3}. */
    public String node() {
        return node;
    }

    /** The block device. */
    public Path device() {
        return Path.of("/dev", node);
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
            if (mounted) {
                unmount();
            }
        } finally {
            try {
                if (!node.isEmpty()) {
                    detach();
                }
            } finally {
                delete();
            }
        }
    }

    private void delete() {
        try {
            Files.deleteIfExists(path());
            Files.deleteIfExists(image());
            Files.deleteIfExists(base);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot clear " + base, e);
        }
    }

    private static String run(List<String> command) {
        try {
            List<String> found = new ArrayList<>(command);
            found.set(0, RigCondition.find(command.get(0)).map(Path::toString).orElse(command.get(0)));
            Path output = Files.createTempFile("tracksoak-loop-", ".out");
            try {
                Process process = new ProcessBuilder(found)
                        .redirectErrorStream(true)
                        .redirectOutput(output.toFile())
                        .start();
                if (!process.waitFor(LIMIT_S, TimeUnit.SECONDS)) {
                    process.destroyForcibly();
                    throw new IllegalStateException(String.join(" ", found) + " took more than " + LIMIT_S + " s");
                }
                String text = Files.readString(output, StandardCharsets.UTF_8).strip();
                if (process.exitValue() != 0) {
                    throw new IllegalStateException(String.join(" ", found) + ": " + text);
                }
                return text;
            } finally {
                Files.deleteIfExists(output);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(String.join(" ", command), e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException("interrupted during " + String.join(" ", command), e);
        }
    }
}
