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
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.stream.KeepsakeList;
import tracksoak.report.history.Likeness;
import tracksoak.report.record.facts.DriveFacts;

/**
 * This computer's own lists of the keepsakes it left, one small file each, with the drive they were left on. A file that
 * cannot be read or is none is passed over.
 *
 * @param folder need not exist
 */
public record KeepsakeShelf(Path folder) {

    private static final int MOST = 1_000;
    private static final String BREAK = "\n--\n";

    /** The shelf among the records. */
    public static KeepsakeShelf in(Rooms rooms) {
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
        Files.createDirectories(folder);
        Files.writeString(file(list.runId()), text.substring(0, Math.max(0, text.length() - 1)) + BREAK + list.text());
    }

    /** Forgets one. */
    public boolean forget(String runId) throws IOException {
        return Files.deleteIfExists(file(runId));
    }

    /** All of a drive. */
    List<Entry> of(DriveFacts drive, @Nullable String tag) {
        return all().stream()
                .filter(entry -> Likeness.of(drive, tag, entry.drive(), entry.tag())
                        .filter(Likeness::sure)
                        .isPresent())
                .toList();
    }

    /** All there are. */
    public List<Entry> all() {
        List<Entry> entries = new ArrayList<>();
        if (!Files.isDirectory(folder)) {
            return entries;
        }
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*.txt")) {
            for (Path file : files) {
                if (entries.size() < MOST
                        && Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)
                        && Files.size(file) <= 2L * KeepsakeList.LONGEST) {
                    entry(Files.readString(file, StandardCharsets.ISO_8859_1)).ifPresent(entries::add);
                }
            }
        } catch (IOException | DirectoryIteratorException unreadable) {
            return entries;
        }
        entries.sort((a, b) -> a.list().writtenAt().compareTo(b.list().writtenAt()));
        return entries;
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
            DriveFacts drive = new DriveFacts(
                    values.get("maker"),
                    values.get("model"),
                    values.get("serial"),
                    size == null ? null : Long.valueOf(size),
                    null,
                    null,
                    false,
                    null,
                    null,
                    null,
                    null,
                    null,
                    "",
                    null,
                    null,
                    null,
                    null,
                    List.of());
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
