package tracksoak.bench.drive.find;

import java.io.IOException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.drive.system.MountTable;
import tracksoak.bench.drive.system.OshiDisk;
import tracksoak.bench.drive.system.SystemFiles;
import tracksoak.bench.drive.system.TimedCall;

/**
 * Finds out what is plugged in. On Linux from the system's own files, which takes some ms; elsewhere through OSHI, with a
 * limit, as a hung drive can hold it up for long. What cannot be told is null, and a sentence says what to check by hand.
 *
 * <p>A drive counts as the system's if it holds {@code /}, {@code /boot}, {@code /usr}, {@code /var}, {@code /home} or a
 * swap: filling it would disturb the computer, and the computer would disturb the measurement.
 */
public final class DriveFinder {

    private static final Duration LIST_LIMIT = Duration.ofMillis(800);
    private static final Duration OSHI_LIMIT = Duration.ofSeconds(5);

    /** For the one drive a person named, which may have to wake first. */
    private static final Duration ONE_LIMIT = Duration.ofSeconds(35);

    private final SystemFiles files;
    private final Touch touch;

    /** Asks this machine. */
    public DriveFinder() {
        this(SystemFiles.HERE, Touch.HERE);
    }

    DriveFinder(SystemFiles files, Touch touch) {
        this.files = files;
        this.touch = touch;
    }

    /**
     * All drives, mounted or not; those the system runs from come last. Takes less than a second on Linux, whatever the
     * drives do.
     */
    public List<FoundDrive> all() {
        return linux()
                ? new LinuxDrives(files, touch).all(LIST_LIMIT)
                : portable().all(LIST_LIMIT);
    }

    /**
     * The drive that a file or folder lies on.
     *
     * @param path must exist
     * @throws NoSuchFileException if there is no such path
     * @throws IOException if it cannot be reached, or the drive does not answer within 60 s
     */
    public FoundDrive at(Path path) throws IOException {
        String real = TimedCall.within(
                RealDrive.PATIENCE, "look for " + path, () -> path.toRealPath().toString());
        return linux()
                ? new LinuxDrives(files, touch).at(real, ONE_LIMIT)
                : portable().at(real, ONE_LIMIT);
    }

    private boolean linux() {
        return files.text(MountTable.FILE) != null && files.real("/sys/class/block") != null;
    }

    private PortableDrives portable() {
        List<OshiDisk> disks;
        try {
            disks = TimedCall.within(OSHI_LIMIT, "list the disks", OshiDisk::all);
        } catch (IOException | RuntimeException | LinkageError e) {
            // its native part may be missing or refuse: everything is then unknown
            disks = List.of();
        }
        String windows = System.getenv("SystemDrive");
        return new PortableDrives(
                disks,
                touch,
                windows == null ? List.of("/", "/System/Volumes/Data") : List.of(windows + "\\", windows));
    }
}
