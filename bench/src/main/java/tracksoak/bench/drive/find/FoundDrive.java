package tracksoak.bench.drive.find;

import java.nio.file.Path;
import java.util.Comparator;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.system.RecordedPlace;
import tracksoak.report.record.facts.DriveFacts;

/**
 * A drive, or a place that is none, as the system describes it.
 *
 * @param place what kind of place it is
 * @param facts what is known of it; {@code folder} is empty until {@link #in}
 * @param lockKey names the whole disk for as long as it is plugged in: two places with the same key are on one disk.
 *     Made of letters, digits and dashes
 * @param readOnly whether the mount or the device refuses writes
 * @param toMount what to do to use it, null if it is mounted
 * @param volumeId what the volume on it was given when it was formatted, null where that is not known
 */
public record FoundDrive(
        Place place,
        DriveFacts facts,
        String lockKey,
        boolean readOnly,
        @Nullable String toMount,
        @Nullable String volumeId) {

    /** In order of their nodes, those that the system runs from last. */
    static final Comparator<FoundDrive> SYSTEM_LAST = Comparator.comparing(
                    (FoundDrive drive) -> Boolean.TRUE.equals(drive.facts().system()))
            .thenComparing(drive -> String.valueOf(drive.facts().node()));

    /** One whose volume has no id that is known. */
    public FoundDrive(Place place, DriveFacts facts, String lockKey, boolean readOnly, @Nullable String toMount) {
        this(place, facts, lockKey, readOnly, toMount, null);
    }

    /** What kind of place a path leads to. */
    public enum Place {
        /** A drive of this computer. */
        DRIVE,
        /** One device made of several drives: RAID, a volume group. */
        ARRAY,
        /** Several drives or devices under one file system, which itself gives each what it likes; or it is not told how many. */
        SPREAD,
        /** A folder of another computer. */
        NETWORK,
        /** This computer's memory. */
        MEMORY,
        /** Folders laid over each other, as in containers. */
        LAYERED,
        /** What the kernel tells of itself. */
        KERNEL
    }

    /** Whether it has a device of its own, which can be tested. */
    public boolean isDevice() {
        return place == Place.DRIVE || place == Place.ARRAY;
    }

    /** Whether its file system can be reached. */
    public boolean mounted() {
        return facts.mount() != null;
    }

    /**
     * The facts as a run records them, with the name of the folder it writes in. Others read a record, so it tells no path of
     * this computer: a mount goes by its last name, as a file manager shows it.
     */
    public DriveFacts in(Path folder) {
        return facts.but()
                .mount(RecordedPlace.of(facts.mount()))
                .folder(RecordedPlace.of(folder))
                .build();
    }
}
