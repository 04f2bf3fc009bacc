package tracksoak.bench.rig;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * An honest drive of a known rate: ext4 on a plain image file, throttled by the kernel for this process. The rate is a
 * ceiling that a burst after a pause may run ahead of by up to 100 ms; the disk under the image must be faster.
 */
public final class ThrottledDrive implements AutoCloseable {

    private final RigFolder folder;
    private final Loop loop;
    private final Path mount;
    private final Throttle throttle;

    private ThrottledDrive(RigFolder folder, Loop loop, Path mount, Throttle throttle) {
        this.folder = folder;
        this.loop = loop;
        this.mount = mount;
        this.throttle = throttle;
    }

    /** Builds one of {@code mebibytes} MiB that takes {@code bytesPerSecond}. */
    public static ThrottledDrive of(long mebibytes, long bytesPerSecond) {
        RigFolder folder = RigFolder.fresh();
        try {
            Path image = folder.path().resolve("image");
            try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
                file.setLength(mebibytes << 20);
            }
            Loop loop = Loop.attach(image);
            Path mount = Files.createDirectory(folder.path().resolve("drive"));
            FileSystem.EXT4.make(loop.device());
            FileSystem.EXT4.mount(loop.device(), mount);
            return new ThrottledDrive(folder, loop, mount, Throttle.thisProcess(loop, bytesPerSecond));
        } catch (IOException e) {
            folder.close();
            throw new UncheckedIOException("cannot build a throttled drive", e);
        } catch (RuntimeException e) {
            folder.close();
            throw e;
        }
    }

    /** Where the file system is mounted. */
    public Path path() {
        return mount;
    }

    /** The block device. */
    public Loop device() {
        return loop;
    }

    @Override
    public void close() {
        throttle.close();
        Mounts.unmount(mount);
        loop.detach();
        folder.close();
        if (!Host.await(2_000, () -> folder.left().isEmpty())) {
            throw new IllegalStateException("left after the take-down: " + folder.left());
        }
    }
}
