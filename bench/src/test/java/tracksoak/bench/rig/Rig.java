package tracksoak.bench.rig;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * A bad drive with a real file system on it: backend, block device, mount. Made on a healthy drive; {@code drive().set}
 * then spoils it. Only one exists at a time on a machine; {@link #close} takes everything down in order, also while a
 * write hangs, and so does the end of the process.
 *
 * <p>The file system is an image in memory, so a rig takes as much memory as is written to it.
 */
public final class Rig implements AutoCloseable {

    private final RigFolder folder;
    private final FileSystem fileSystem;
    private final long bytes;
    private final boolean keeps;
    private Backend backend;
    private Loop loop;
    private Path mount;
    private final Thread atExit = new Thread(this::close, "rig take-down");
    private boolean closed;

    private Rig(
            RigFolder folder,
            Backend backend,
            Loop loop,
            FileSystem fileSystem,
            Path mount,
            long bytes,
            boolean keeps) {
        this.bytes = bytes;
        this.keeps = keeps;
        this.folder = folder;
        this.backend = backend;
        this.loop = loop;
        this.fileSystem = fileSystem;
        this.mount = mount;
    }

    /** Builds a drive of {@code mebibytes} MiB with an empty file system, and mounts it. */
    public static Rig of(FileSystem fileSystem, long mebibytes) {
        return of(fileSystem, mebibytes, false);
    }

    /** The same whose blocks lie in a file, so that it can be pulled and plugged in again. */
    static Rig thatKeeps(FileSystem fileSystem, long mebibytes) {
        return of(fileSystem, mebibytes, true);
    }

    private static Rig of(FileSystem fileSystem, long mebibytes, boolean keeps) {
        Backend.showConnections();
        RigFolder folder = RigFolder.fresh();
        try {
            long bytes = mebibytes << 20;
            Backend backend = keeps
                    ? Backend.start(folder.path(), bytes, folder.path().resolve("store"))
                    : Backend.start(folder.path(), bytes);
            Loop loop = Loop.attach(backend.disk());
            Path mount = Files.createDirectory(folder.path().resolve("drive"));
            Rig rig = new Rig(folder, backend, loop, fileSystem, mount, bytes, keeps);
            Runtime.getRuntime().addShutdownHook(rig.atExit);
            fileSystem.make(rig.under());
            fileSystem.mount(rig.under(), mount);
            return rig;
        } catch (IOException e) {
            folder.close();
            throw new UncheckedIOException("cannot build a rig", e);
        } catch (RuntimeException e) {
            folder.close();
            throw e;
        }
    }

    /** Where the file system is mounted. */
    public Path path() {
        return mount;
    }

    FileSystem fileSystem() {
        return fileSystem;
    }

    /** The drive itself: its faults and its request log. */
    public Backend drive() {
        return backend;
    }

    /** The block device the file system lies on, save {@link FileSystem#FAT32}. */
    public Loop device() {
        return loop;
    }

    /**
     * Pulls the drive: what is under way fails, and the system sees a device of size 0, as with a card pulled out of its
     * reader. The node itself stays while the file system is mounted, for a loop device cannot go before.
     */
    public void pull() {
        backend.cut();
        loop.askSizeAgain();
    }

    /** The blocks of a drive that keeps them, as a file. */
    Path store() {
        return folder.path().resolve("store");
    }

    /**
     * Plugs a pulled drive in again: under another name, its file system checked as its makers ask and mounted at another
     * place. What was the drive before is taken down.
     *
     * @return where it is mounted now
     */
    Path plugInAgain() {
        return plugInAgain(false);
    }

    /** The same with its lock switch slid meanwhile: the device refuses writes, so it is mounted read-only. */
    Path plugInAgainLocked() {
        return plugInAgain(true);
    }

    private Path plugInAgain(boolean locked) {
        if (!keeps) {
            throw new IllegalStateException("this rig forgets its blocks");
        }
        Mounts.unmount(mount);
        Loop old = loop;
        if (!old.detach()) {
            throw new IllegalStateException(old.device() + " is still in use");
        }
        backend.stop();
        try {
            Path again = Files.createDirectory(folder.path().resolve("again"));
            backend = Backend.start(again, bytes, store());
            loop = Loop.attach(backend.disk());
            mount = Files.createDirectory(again.resolve("another place"));
        } catch (IOException e) {
            throw new UncheckedIOException("cannot plug the drive in again", e);
        }
        fileSystem.mend(under());
        if (locked) {
            Host.run("blockdev", "--setro", loop.device().toString());
        }
        fileSystem.mount(under(), mount);
        return mount;
    }

    /** Takes every fault off the drive, under whatever is open on it; says where it is mounted. */
    Path comesBack() {
        backend.set(Faults.none());
        return mount;
    }

    /** Takes every fault off the drive, has its file system checked and mounts it anew; says where. */
    Path makeGood() {
        backend.set(Faults.none());
        if (!Mounts.unmount(mount)) {
            throw new IllegalStateException(mount + " was in use");
        }
        Host.run("blockdev", "--setrw", loop.device().toString());
        fileSystem.mend(under());
        fileSystem.mount(under(), mount);
        return mount;
    }

    private Path under() {
        return fileSystem.onDevice() ? loop.device() : backend.disk();
    }

    /** Makes the device refuse writes from now on, as a worn-out card or a slid switch does. */
    public void writeProtect() {
        backend.set(Faults.none().readOnlyAfterMs(0));
        Host.run("blockdev", "--setro", loop.device().toString());
    }

    /**
     * Takes everything down: the mount, the device, the backend's file, its processes, the folder.
     *
     * @throws IllegalStateException if something is left
     */
    @Override
    public synchronized void close() {
        if (closed) {
            return;
        }
        closed = true;
        backend.set(Faults.none());
        // from here on a start of a process could block on a hanging drive's open files, so it must not hang any more
        if (!Mounts.unmount(mount)) {
            backend.cut();
        }
        Host.attempt(5, "blockdev", "--setrw", loop.device().toString());
        loop.detach();
        backend.stop();
        folder.close();
        forgetExit();
        if (!Host.await(2_000, () -> folder.left().isEmpty())) {
            throw new IllegalStateException("left after the take-down: " + folder.left());
        }
    }

    private void forgetExit() {
        try {
            Runtime.getRuntime().removeShutdownHook(atExit);
        } catch (IllegalStateException e) {
            // the process is ending, and the hook with it
        }
    }
}
