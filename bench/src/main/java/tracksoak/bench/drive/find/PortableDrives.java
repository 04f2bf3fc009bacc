package tracksoak.bench.drive.find;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.FoundDrive.Place;
import tracksoak.bench.drive.system.OshiDisk;
import tracksoak.bench.drive.system.TimedCall;

/** Finds drives where Linux's own files are not to be had, as far as portable code goes. The rest is for the hand. */
final class PortableDrives {

    private final List<OshiDisk> disks;
    private final Touch touch;
    private final List<String> systemMounts;

    /**
     * @param disks what OSHI told, empty if nothing
     * @param systemMounts where the running system is mounted, for example {@code C:\} or {@code /}
     */
    PortableDrives(List<OshiDisk> disks, Touch touch, List<String> systemMounts) {
        this.disks = List.copyOf(disks);
        this.touch = touch;
        this.systemMounts = List.copyOf(systemMounts);
    }

    /** The drive a path lies on. */
    FoundDrive at(String path, Duration limit) {
        Callable<Touch.Room> question = () -> roomOrThrow(path);
        Touch.Room room = TimedCall.together(limit, "ask a drive for its room", List.of(question))
                .get(0)
                .orElse(null);
        return compose(match(path, room), path, room);
    }

    /** All drives, those the system runs from last. */
    List<FoundDrive> all(Duration limit) {
        List<Match> parts = new ArrayList<>();
        List<Callable<Touch.Room>> questions = new ArrayList<>();
        for (OshiDisk disk : disks) {
            for (OshiDisk.Part part : disk.parts()) {
                if (!part.mount().isBlank()) {
                    parts.add(new Match(disk, part));
                    questions.add(() -> roomOrThrow(part.mount()));
                }
            }
        }
        List<Optional<Touch.Room>> rooms = TimedCall.together(limit, "ask a drive for its room", questions);
        List<FoundDrive> found = new ArrayList<>();
        for (int i = 0; i < parts.size(); i++) {
            found.add(compose(
                    parts.get(i), parts.get(i).part().mount(), rooms.get(i).orElse(null)));
        }
        found.sort(FoundDrive.SYSTEM_LAST);
        return found;
    }

    private Touch.Room roomOrThrow(String path) {
        Touch.Room room = touch.room(path);
        if (room == null) {
            throw new IllegalStateException("no answer");
        }
        return room;
    }

    private @Nullable Match match(String path, Touch.@Nullable Room room) {
        Match best = null;
        for (OshiDisk disk : disks) {
            for (OshiDisk.Part part : disk.parts()) {
                String mount = part.mount();
                if (room != null && !part.id().isBlank() && room.name().equals("/dev/" + part.id())) {
                    return new Match(disk, part);
                }
                if (under(path, mount)
                        && (best == null || mount.length() > best.part().mount().length())) {
                    best = new Match(disk, part);
                }
            }
        }
        return best;
    }

    private static boolean under(String path, String mount) {
        if (mount.isBlank()) {
            return false;
        }
        String folder = mount.endsWith("/") || mount.endsWith("\\") ? mount : mount + "/";
        return path.equals(mount) || path.regionMatches(mount.contains("\\"), 0, folder, 0, folder.length());
    }

    private FoundDrive compose(@Nullable Match match, String path, Touch.@Nullable Room room) {
        Place place = room == null ? Place.DRIVE : FileSystemNames.place(room.type());
        FactsDraft draft = new FactsDraft(match == null ? Hardware.unknown() : hardware(match.disk()), place);
        draft.answered = room != null;
        draft.room = room;
        draft.node = match == null ? null : match.part().id();
        draft.mount = match == null || match.part().mount().isBlank()
                ? path
                : match.part().mount();
        draft.system = match == null ? null : system(match.disk());
        draft.fileSystem = room == null ? null : FileSystemNames.word(room.type(), null, room.totalBytes());
        String key = match != null ? match.disk().name() : room != null ? room.name() + " " + room.type() : path;
        return new FoundDrive(
                place,
                draft.facts(),
                "store-" + HexFormat.of().toHexDigits(key.hashCode()),
                room != null && room.readOnly(),
                null);
    }

    private @Nullable Boolean system(OshiDisk disk) {
        for (OshiDisk.Part part : disk.parts()) {
            if (systemMounts.stream().anyMatch(mount -> mount.equalsIgnoreCase(part.mount()))) {
                return true;
            }
        }
        // certain only if the system's own disk was seen among the others
        boolean seen = disks.stream()
                .flatMap(each -> each.parts().stream())
                .anyMatch(part -> systemMounts.stream().anyMatch(mount -> mount.equalsIgnoreCase(part.mount())));
        return seen ? false : null;
    }

    private static Hardware hardware(OshiDisk disk) {
        String model = disk.model();
        // Windows ends the names of such disks so; common practice, no source
        boolean usb = model != null && model.toUpperCase(Locale.ROOT).contains("USB DEVICE");
        return new Hardware(
                null,
                model,
                disk.serial(),
                disk.sizeBytes() > 0 ? disk.sizeBytes() : null,
                usb ? "usb" : null,
                null,
                false,
                null,
                null,
                List.of());
    }

    private record Match(OshiDisk disk, OshiDisk.Part part) {}
}
