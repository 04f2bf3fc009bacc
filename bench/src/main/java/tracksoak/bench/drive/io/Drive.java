package tracksoak.bench.drive.io;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.IoMode;

/**
 * The one way the bench reaches a drive. It sees only the run's own folder: names are plain file names without any
 * path. Real, simulated and fault-injecting drives pass one contract suite ({@code DriveContractTest} in the tests).
 *
 * <p>Any call may block for as long as the hardware likes, so only throw-away threads call it while a run goes on. One
 * file is used by one thread at a time; different files may be used by different threads.
 */
public interface Drive extends AutoCloseable {

    /**
     * Makes a new file and opens it for writing and reading.
     *
     * @throws java.nio.file.FileAlreadyExistsException if the name is taken: an existing file is never opened for writing
     * @throws IOException if the drive refuses
     */
    DriveFile create(String name) throws IOException;

    /** Opens a file of the folder for reading, past the host's memory where the system allows it. */
    DriveFile open(String name) throws IOException;

    /** Names of the files in the folder, sorted. */
    List<String> list() throws IOException;

    /** Deletes a file of the folder. */
    void delete(String name) throws IOException;

    /** Makes names and sizes in the folder durable. Does nothing where the system has no such call. */
    void syncFolder() throws IOException;

    /** Room left for this user in bytes. */
    long usableBytes() throws IOException;

    /** Positions, lengths and buffer addresses must be multiples of this, in bytes; at least 4096. */
    int alignmentBytes();

    /** Room is given to files in units of this, in bytes: the cluster, at least {@link #alignmentBytes}. */
    default int roomUnitBytes() {
        return alignmentBytes();
    }

    /** How single blocks can be laid over all the free room without writing it all. */
    default Spreading spreading() {
        return Spreading.NONE;
    }

    /** Least room between two such blocks in one file, in bytes: the cluster. */
    default int spreadingUnitBytes() {
        return roomUnitBytes();
    }

    /** Why {@link #spreading} is {@link Spreading#NONE}. */
    default String spreadingReason() {
        return "";
    }

    /**
     * The room given next lies at such a share of the free room, and what is written until {@code share} is 0 again takes no
     * time. Only where {@link #spreading} is {@link Spreading#STEERED}.
     */
    default void steer(double share) {
        throw new UnsupportedOperationException("room cannot be steered here");
    }

    /** How writes reach the drive. */
    IoMode ioMode();

    /** Why that is not direct I/O, empty if it is. */
    String ioReason();

    /** The device's own counters, empty where there are none. Never blocks on the drive itself. */
    Optional<Counters> counters();

    /** Time in which the device had work since it was attached, in ms; below 0 where the system does not tell exactly. Cheap. */
    default long busyMs() {
        return -1;
    }

    /** Whether the device is still attached and whether it takes writes. Never blocks on the drive itself. */
    Presence presence();

    /**
     * Whether blocks written are kept as they are. A simulated drive keeps only stamps, and of blocks written together only the
     * first one's, from which the others count up; so no more need be made.
     */
    default boolean keepsBodies() {
        return true;
    }

    /**
     * Asks the system to forget what it holds of this drive in memory, so that the next read comes from the device. Does
     * nothing where reads bypass memory anyway or the system has no such call.
     */
    void forgetCached();

    /** Lets go of the drive; the files stay. */
    @Override
    void close() throws IOException;

    /**
     * The device's counters since it was attached.
     *
     * @param bytesWritten bytes the device took
     * @param bytesRead bytes the device gave
     * @param busyMs time in which it had work, in ms; null where the system does not tell
     * @param neighbours bytes that each of the other drives behind the same USB controller took and gave since it was attached; null where
     *     the drive is on none or the system does not tell
     */
    record Counters(
            long bytesWritten,
            long bytesRead,
            @Nullable Long busyMs,
            @Nullable Map<String, Long> neighbours) {

        public Counters {
            neighbours = neighbours == null ? null : Map.copyOf(neighbours);
        }

        /** Those of the device alone. */
        public Counters(long bytesWritten, long bytesRead) {
            this(bytesWritten, bytesRead, null, null);
        }

        /** What the neighbours took and gave since {@code before}, in bytes; null where either does not say. */
        public @Nullable Long neighboursSince(Counters before) {
            Map<String, Long> then = before.neighbours;
            if (neighbours == null || then == null) {
                return null;
            }
            long bytes = 0;
            for (Map.Entry<String, Long> now : neighbours.entrySet()) {
                long was = then.getOrDefault(now.getKey(), 0L);
                // one that counts less was plugged in anew
                bytes += now.getValue() >= was ? now.getValue() - was : now.getValue();
            }
            return bytes;
        }
    }

    /** Ways to lay single blocks over all the free room. */
    enum Spreading {
        /** All of it would have to be written. */
        NONE,
        /** A simulated file system is told where. */
        STEERED,
        /** A file is given room in advance, and gives back what lies between the blocks. */
        SPARSE,
        /** Room is given one piece after another: that between two blocks is given to a file that is deleted afterwards. */
        IN_TURN,
        /** The same, where a file is given room by being made longer. */
        IN_TURN_BY_LENGTH
    }

    /** State of the device, as the system knows it without touching the drive. */
    enum Presence {
        PRESENT,
        READ_ONLY,
        GONE,
        UNKNOWN
    }
}
