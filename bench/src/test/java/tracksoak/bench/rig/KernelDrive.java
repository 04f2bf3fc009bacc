package tracksoak.bench.rig;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/** A network block device as a file system of this machine: nbdfuse, loop device, file system, mount. Taken down in order. */
final class KernelDrive implements AutoCloseable {

    private final Process fuse;
    private final Path fuseFolder;
    private final Path mount;
    private @Nullable Loop loop;

    /** Formats the drive at {@code uri} and mounts it, all within {@code folder}. */
    KernelDrive(Path folder, String uri, FileSystem fileSystem) {
        try {
            fuseFolder = Files.createDirectory(folder.resolve("fuse"));
            mount = Files.createDirectory(folder.resolve("mount"));
            Path disk = fuseFolder.resolve("disk");
            fuse = new ProcessBuilder("setsid", "nbdfuse", disk.toString(), uri)
                    .redirectErrorStream(true)
                    .redirectInput(Path.of("/dev/null").toFile())
                    .redirectOutput(folder.resolve("fuse.out").toFile())
                    .start();
            if (!Host.await(10_000, () -> Files.exists(disk) || !fuse.isAlive()) || !fuse.isAlive()) {
                throw new IllegalStateException("no drive: " + Host.text(folder.resolve("fuse.out")));
            }
            if (fileSystem.onDevice()) {
                Loop attached = Loop.attach(disk);
                loop = attached;
                fileSystem.make(attached.device());
                fileSystem.mount(attached.device(), mount);
            } else {
                fileSystem.make(disk);
                fileSystem.mount(disk, mount);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    Path path() {
        return mount;
    }

    @Override
    public void close() {
        Mounts.unmount(mount);
        Loop attached = loop;
        if (attached != null) {
            attached.detach();
        }
        Mounts.unmount(fuseFolder);
        try {
            if (!fuse.waitFor(10, TimeUnit.SECONDS)) {
                fuse.destroyForcibly();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            fuse.destroyForcibly();
        }
    }
}
