package tracksoak.bench.drive.find;

import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.Channels;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.FileStore;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.system.Superblock;
import tracksoak.bench.drive.system.TimedCall;

/** Questions that reach the drive itself, and so may never come back: ask through {@link TimedCall}. */
public interface Touch {

    /** Room of the file system a path lies on, null if it does not tell. */
    @Nullable
    Room room(String path);

    /** First bytes of a device, at most {@link Superblock#LENGTH}; null if they cannot be read. */
    byte @Nullable [] head(String device);

    /** The same from a position on. */
    default byte @Nullable [] part(String device, long at) {
        return null;
    }

    /**
     * What a file system says of itself.
     *
     * @param name what the system calls it, for example {@code /dev/sdb1}
     * @param type as the system names it
     * @param totalBytes its size in bytes
     * @param usableBytes room left for this user in bytes
     * @param blockBytes allocation unit in bytes, 0 if unknown
     * @param readOnly whether it refuses writes
     */
    record Room(String name, String type, long totalBytes, long usableBytes, long blockBytes, boolean readOnly) {}

    /** This machine. */
    Touch HERE = new Touch() {
        @Override
        public @Nullable Room room(String path) {
            try {
                FileStore store = Files.getFileStore(Path.of(path));
                return new Room(
                        store.name(),
                        store.type(),
                        store.getTotalSpace(),
                        store.getUsableSpace(),
                        blockBytes(store),
                        store.isReadOnly());
            } catch (IOException | RuntimeException e) {
                return null;
            }
        }

        private long blockBytes(FileStore store) throws IOException {
            try {
                return store.getBlockSize();
            } catch (UnsupportedOperationException e) {
                return 0;
            }
        }

        @Override
        public byte @Nullable [] head(String device) {
            return part(device, 0);
        }

        @Override
        public byte @Nullable [] part(String device, long at) {
            try (SeekableByteChannel channel = Files.newByteChannel(Path.of(device));
                    InputStream in = Channels.newInputStream(channel.position(at))) {
                return in.readNBytes(Superblock.LENGTH);
            } catch (IOException | RuntimeException e) {
                return null;
            }
        }
    };
}
