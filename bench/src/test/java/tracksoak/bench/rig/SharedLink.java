package tracksoak.bench.rig;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Several drives with a file system each that share one backend: what it gives in all they have together. */
final class SharedLink implements AutoCloseable {

    private final RigFolder folder = RigFolder.fresh();
    private final Backend backend;
    private final List<Loop> loops = new ArrayList<>();
    private final List<Path> places = new ArrayList<>();
    private final long bytesEach;

    SharedLink(int drives, long mebibytesEach) {
        Backend.showConnections();
        bytesEach = mebibytesEach << 20;
        backend = Backend.start(folder.path(), drives * bytesEach);
        try {
            for (int i = 0; i < drives; i++) {
                Loop loop = Loop.attach(backend.disk(), i * bytesEach, bytesEach);
                loops.add(loop);
                FileSystem.EXT4.make(loop.device());
                Path place = Files.createDirectory(folder.path().resolve("drive " + i));
                FileSystem.EXT4.mount(loop.device(), place);
                places.add(place);
            }
        } catch (IOException e) {
            close();
            throw new UncheckedIOException("cannot build drives", e);
        } catch (RuntimeException e) {
            close();
            throw e;
        }
    }

    Path drive(int number) {
        return places.get(number);
    }

    /** Where a drive begins on the backend, in bytes. */
    long offset(int number) {
        return number * bytesEach;
    }

    void set(Faults faults) {
        backend.set(faults);
    }

    @Override
    public void close() {
        backend.set(Faults.none());
        places.forEach(Mounts::unmount);
        loops.forEach(Loop::detach);
        backend.stop();
        folder.close();
    }
}
