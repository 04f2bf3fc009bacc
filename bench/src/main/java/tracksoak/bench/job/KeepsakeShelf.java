package tracksoak.bench.job;

import java.io.IOException;
import java.net.URLDecoder;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.folder.KeepsakeFolder;
import tracksoak.bench.stream.KeepsakeList;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.history.Likeness;
import tracksoak.report.record.facts.DriveFacts;

/**
 * This computer's own lists of the keepsakes it left, one small file each, with the drive they were left on. A file that
 * cannot be read, or is no such list, is named and passed over.
 *
 * @param folder need not exist
 */
public record KeepsakeShelf(Path folder) {

    private static final int MOST = 1_000;
    private static final String BREAK = "\n--\n";

    /** The shelf among the records. */
    static KeepsakeShelf in(Rooms rooms) {
        return new KeepsakeShelf(rooms.recordsFolder().resolve("keepsakes"));
    }

    /**
     * A keepsake as this computer remembers it.
     *
     * @param list what was left
     * @param drive the drive it was left on; only what tells drives apart
     * @param tag what the crew calls the drive, null if nobody said
     */
    public record Entry(
            KeepsakeList list, DriveFacts drive, @Nullable String tag) {}

    /** Keeps a list. */
    void keep(KeepsakeList list, DriveFacts drive, @Nullable String tag) throws IOException {
        StringBuilder text = new StringBuilder();
        line(text, "maker", drive.maker());
        line(text, "model", drive.model());
        line(text, "serial", drive.serial());
        line(text, "size", drive.sizeBytes() == null ? null : Long.toString(drive.sizeBytes()));
        line(text, "tag", tag);
        String whole = text.substring(0, Math.max(0, text.length() - 1)) + BREAK + list.text();
        AtomicFile.write(file(list.runId()), whole.getBytes(StandardCharsets.UTF_8));
    }

    /** Forgets one. */
    boolean forget(String runId) throws IOException {
        return Files.deleteIfExists(file(runId));
    }

    /**
     * All there are.
     *
     * @param entries the oldest first
     * @param unreadable one for each file that is passed over
     */
    record Contents(List<Entry> entries, List<Problem> unreadable) {

        /** The list of a keepsake, where this computer left it, by the name of its folder. */
        Optional<KeepsakeList> own(String folder) {
            return entries.stream()
                    .map(Entry::list)
                    .filter(list -> KeepsakeFolder.nameOf(list.runId()).equals(folder))
                    .findFirst();
        }

        /** The list of a keepsake: this computer's own, or else that of its note; empty where there is none of it. */
        Optional<KeepsakeList> listOf(KeepsakeFolder folder) throws IOException {
            Optional<KeepsakeList> own = own(folder.name());
            String note = own.isPresent() ? null : folder.note(KeepsakeList.LONGEST);
            return note == null
                    ? own
                    : KeepsakeList.parse(note)
                            .filter(list -> KeepsakeFolder.nameOf(list.runId()).equals(folder.name()));
        }

        /** Those that were surely left on this drive. */
        List<Entry> of(DriveFacts drive, @Nullable String tag) {
            return entries.stream()
                    .filter(entry -> Likeness.of(drive, tag, entry.drive(), entry.tag())
                            .filter(Likeness::sure)
                            .isPresent())
                    .toList();
        }
    }

    /** Reads all there are; never fails. */
    Contents read() {
        List<Entry> entries = new ArrayList<>();
        List<Problem> unreadable = new ArrayList<>();
        for (Path file : files(unreadable)) {
            try {
                entry(text(file))
                        .ifPresentOrElse(entries::add, () -> unreadable.add(passedOver(file, "it is damaged")));
            } catch (IOException refused) {
                unreadable.add(passedOver(file, Problem.reason(refused)));
            }
        }
        entries.sort(Comparator.comparing(entry -> entry.list().writtenAt()));
        return new Contents(entries, unreadable);
    }

    private List<Path> files(List<Problem> unreadable) {
        List<Path> found = new ArrayList<>();
        if (Files.isDirectory(folder)) {
            try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*.txt")) {
                for (Path file : files) {
                    if (found.size() == MOST) {
                        unreadable.add(passedOver(folder, "there are more than " + Count.number(MOST) + " lists"));
                        break;
                    }
                    found.add(file);
                }
            } catch (IOException | DirectoryIteratorException refused) {
                unreadable.add(passedOver(folder, Problem.reason(refused)));
            }
        }
        return found;
    }

    private static String text(Path file) throws IOException {
        if (!Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
            throw new IOException("it is no plain file");
        }
        if (Files.size(file) > 2L * KeepsakeList.LONGEST) {
            throw new IOException("it is larger than such a list can be");
        }
        return Files.readString(file, StandardCharsets.ISO_8859_1);
    }

    private static Problem passedOver(Path file, String why) {
        return new Problem(
                Problem.Kind.CORRUPT,
                "this computer's list of a keepsake is passed over",
                Inert.quoted(file),
                why,
                "make it readable again, or delete it; a keepsake's own note on the drive then serves instead");
    }

    private static Optional<Entry> entry(String text) {
        int end = text.indexOf(BREAK);
        if (end < 0) {
            return Optional.empty();
        }
        Map<String, String> values = new HashMap<>();
        try {
            for (String line : text.substring(0, end).split("\n", -1)) {
                int equals = line.indexOf('=');
                if (equals > 0) {
                    values.put(
                            line.substring(0, equals),
                            URLDecoder.decode(line.substring(equals + 1), StandardCharsets.UTF_8));
                }
            }
            String size = values.get("size");
            DriveFacts drive = DriveFacts.builder()
                    .maker(values.get("maker"))
                    .model(values.get("model"))
                    .serial(values.get("serial"))
                    .sizeBytes(size == null ? null : Long.valueOf(size))
                    .build();
            return KeepsakeList.parse(text.substring(end + BREAK.length()))
                    .map(list -> new Entry(list, drive, values.get("tag")));
        } catch (IllegalArgumentException damaged) {
            return Optional.empty();
        }
    }

    private Path file(String runId) {
        return folder.resolve(runId + ".txt");
    }

    private static void line(StringBuilder text, String name, @Nullable String value) {
        if (value != null) {
            text.append(name)
                    .append('=')
                    .append(URLEncoder.encode(value, StandardCharsets.UTF_8))
                    .append('\n');
        }
    }
}
