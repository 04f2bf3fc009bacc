package tracksoak.bench.drive.find;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import tracksoak.bench.drive.system.SystemFiles;

/**
 * What is plugged in and mounted right now, from the system's own tables: no drive is touched. A look takes a few ms.
 */
public interface HotplugSource {

    /** Whether the system has such tables. */
    boolean known();

    /** Names of all block devices, disks and their partitions: {@code sdb}, {@code sdb1}. */
    Set<String> devices();

    /** Everything that is mounted from a block device. */
    List<Place> places();

    /**
     * A mounted file system.
     *
     * @param mount number of the mount; a new one has a number of its own
     * @param point where it is mounted
     * @param devices names of the device it lies on and of the disk under it
     */
    record Place(int mount, Path point, Set<String> devices) {

        public Place {
            devices = Set.copyOf(devices);
        }
    }

    /** The place that a path lies on or would lie on; empty if on none of them. */
    default Optional<Place> of(Path path) {
        Path absolute = path.toAbsolutePath().normalize();
        Place best = null;
        for (Place place : places()) {
            if (absolute.startsWith(place.point())
                    && (best == null
                            || place.point().getNameCount() >= best.point().getNameCount())) {
                best = place;
            }
        }
        return Optional.ofNullable(best);
    }

    /** Those of this machine. */
    static HotplugSource here() {
        return new LinuxHotplug(SystemFiles.HERE);
    }
}
