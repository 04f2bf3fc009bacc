package tracksoak.bench.command.drives;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.folder.KeepsakeFolder;
import tracksoak.bench.job.KeepsakeShelf;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RunFiles;
import tracksoak.bench.stream.KeepsakeList;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Units;

/** The keepsakes in a folder, which stay where left-overs are cleared; what cannot be told of one is left open. */
final class KeepsakesLeft {

    private static final double DAY_MS = 86_400_000;

    private final List<One> all = new ArrayList<>();

    /**
     * One of them.
     *
     * @param bytes room it takes, null if that cannot be told
     * @param writtenAt when it was left, null if neither this computer nor its own note says so
     * @param days since then, below 0 where that is in the future; null as before
     */
    private record One(
            KeepsakeFolder folder,
            @Nullable Long bytes,
            @Nullable Instant writtenAt,
            @Nullable Double days) {

        Map<String, Object> json() {
            Map<String, Object> json = new LinkedHashMap<>();
            json.put("folder", folder.folder().toString());
            json.put("there", true);
            json.put("bytes", bytes);
            json.put("writtenAt", writtenAt == null ? null : writtenAt.toString());
            json.put("days", days);
            json.put("deleted", false);
            return json;
        }

        String sentence() {
            return "the keepsake " + folder.name() + " (" + (bytes == null ? "size unknown" : Units.bytes(bytes)) + ", "
                    + age() + ") is left, as it was left on purpose; to remove it: tracksoak clear PATH --keepsake "
                    + folder.name() + " --yes";
        }

        private String age() {
            if (writtenAt == null || days == null) {
                return "age unknown";
            }
            return days < 0
                    ? "dated " + writtenAt + ", in the future of this computer's clock"
                    : Units.days(days) + " old";
        }
    }

    /**
     * Looks for them.
     *
     * @throws Problem if the folder cannot be looked into
     */
    KeepsakesLeft(Path path, Rooms rooms, EpochClock clock) {
        List<KeepsakeList> own = KeepsakeShelf.in(rooms).all().stream()
                .map(KeepsakeShelf.Entry::list)
                .toList();
        try {
            for (KeepsakeFolder folder : KeepsakeFolder.under(path)) {
                Instant written = writtenAt(folder, own).orElse(null);
                all.add(new One(
                        folder,
                        bytes(folder),
                        written,
                        written == null
                                ? null
                                : (Double) (Duration.between(written, Instant.ofEpochMilli(clock.epochMillis()))
                                                .toMillis()
                                        / DAY_MS)));
            }
        } catch (IOException silent) {
            throw Problem.cannot(
                    "the folder " + Inert.quoted(path) + " cannot be looked into (" + RunFiles.reason(silent) + ")",
                    "plug the drive in again and try again");
        }
    }

    boolean none() {
        return all.isEmpty();
    }

    /** The same list as the JSON of {@code clear --keepsake} has, with when each was left. */
    List<Map<String, Object>> json() {
        return all.stream().map(One::json).toList();
    }

    /** One sentence each. */
    List<String> sentences() {
        return all.stream().map(One::sentence).toList();
    }

    private static Optional<Instant> writtenAt(KeepsakeFolder folder, List<KeepsakeList> own) {
        Optional<KeepsakeList> known =
                own.stream().filter(list -> of(folder, list)).findFirst();
        if (known.isEmpty()) {
            try {
                String note = folder.note(KeepsakeList.LONGEST);
                known = note == null ? known : KeepsakeList.parse(note).filter(list -> of(folder, list));
            } catch (IOException unreadable) {
                return Optional.empty();
            }
        }
        return known.map(list -> Instant.parse(list.writtenAt()));
    }

    private static boolean of(KeepsakeFolder folder, KeepsakeList list) {
        return KeepsakeFolder.nameOf(list.runId()).equals(folder.name());
    }

    private static @Nullable Long bytes(KeepsakeFolder folder) {
        try {
            return folder.bytes();
        } catch (IOException unknown) {
            return null;
        }
    }
}
