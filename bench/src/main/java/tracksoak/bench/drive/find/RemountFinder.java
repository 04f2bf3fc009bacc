package tracksoak.bench.drive.find;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.folder.LeftOver;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.drive.system.BlockNodes;
import tracksoak.bench.drive.system.Mount;
import tracksoak.bench.drive.system.MountTable;
import tracksoak.bench.drive.system.SystemFiles;
import tracksoak.bench.drive.system.TimedCall;

/**
 * Finds a run's own folder again after its drive was unplugged and plugged in anew, under whatever device name and mount
 * point it then has. A mount that was there before is never taken for it as long as it stays in the system's table: what that of
 * the run shows may come from memory, and any other may be of a drive that hangs, whose callers the kernel holds for good.
 * One thread.
 */
public final class RemountFinder {

    private static final Duration LIMIT = Duration.ofSeconds(5);

    private final SystemFiles files;
    private final Path folder;
    private final Path below;
    private final String runId;
    private final Set<Old> before;

    private RemountFinder(SystemFiles files, Path folder, Path below, String runId, Set<Old> before) {
        this.files = files;
        this.folder = folder;
        this.below = below;
        this.runId = runId;
        this.before = before;
    }

    /**
     * Remembers where the folder is while the drive is still there.
     *
     * @throws IOException if the drive does not answer within 60 s
     */
    public static RemountFinder of(Path folder, String runId) throws IOException {
        return of(folder, runId, SystemFiles.HERE);
    }

    static RemountFinder of(Path folder, String runId, SystemFiles files) throws IOException {
        Path real = TimedCall.within(RealDrive.PATIENCE, "look for " + folder, folder::toRealPath);
        MountTable table = MountTable.of(files);
        Path point =
                table.of(real.toString()).map(mount -> Path.of(mount.point())).orElse(real.getRoot());
        return new RemountFinder(files, real, point.relativize(real), runId, new HashSet<>(all(table.mounts())));
    }

    /**
     * The folder as it was found again.
     *
     * @param folder where it is now
     * @param node name of the device, null where the system has none
     * @param mount where its file system is mounted
     * @param readOnly whether that refuses writes
     * @param marker whether the file that says whose the folder is survived
     */
    public record Found(Path folder, @Nullable String node, String mount, boolean readOnly, boolean marker) {}

    /** Whether the folder cannot be reached any more, for systems that do not tell whether a device is there. */
    public boolean unreachable() {
        try {
            return !TimedCall.within(LIMIT, "look for " + folder, () -> Files.isDirectory(folder));
        } catch (IOException silent) {
            return true;
        }
    }

    /** Looks once at all that is mounted now; empty if the folder is not among it. */
    public Optional<Found> look() {
        for (Place place : places()) {
            Optional<Found> found = at(place);
            if (found.isPresent()) {
                return found;
            }
        }
        return Optional.empty();
    }

    private record Place(String point, @Nullable String node, boolean readOnly) {}

    private List<Place> places() {
        List<Place> places = new ArrayList<>();
        List<Mount> mounts = MountTable.of(files).mounts();
        if (mounts.isEmpty()) {
            for (FoundDrive drive : new DriveFinder().all()) {
                String point = drive.facts().mount();
                if (point != null) {
                    places.add(new Place(point, drive.facts().node(), drive.readOnly()));
                }
            }
            return places;
        }
        before.retainAll(all(mounts));
        BlockNodes nodes = new BlockNodes(files);
        for (Mount now : mounts) {
            String node = nodes.of(now).orElse(null);
            if (node != null && !before.contains(Old.of(now)) && hasRoom(nodes.disk(node))) {
                places.add(new Place(now.point(), BlockNodes.name(node), now.readOnly()));
            }
        }
        return places;
    }

    private static Set<Old> all(List<Mount> mounts) {
        return mounts.stream().map(Old::of).collect(Collectors.toSet());
    }

    /** A mount that was there; the kernel gives its number out again at once. */
    private record Old(int id, String point, String device) {
        private static Old of(Mount mount) {
            return new Old(mount.id(), mount.point(), mount.device());
        }
    }

    private boolean hasRoom(String disk) {
        Long sectors = files.number(disk + "/size");
        return sectors != null && sectors > 0;
    }

    private Optional<Found> at(Place place) {
        try {
            Path candidate = Path.of(place.point()).resolve(below);
            return TimedCall.within(LIMIT, "look for " + candidate, () -> {
                if (!Files.isDirectory(candidate, LinkOption.NOFOLLOW_LINKS)) {
                    return Optional.empty();
                }
                boolean marked = LeftOver.runIn(candidate).filter(runId::equals).isPresent();
                return Optional.of(new Found(candidate, place.node(), place.point(), place.readOnly(), marked));
            });
        } catch (IOException | InvalidPathException silent) {
            return Optional.empty();
        }
    }
}
