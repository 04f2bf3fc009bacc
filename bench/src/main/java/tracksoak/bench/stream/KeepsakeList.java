package tracksoak.bench.stream;

import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Pattern;

/**
 * What a run left on a drive for a later one to read: which files, and the stamps they must hold. As text it is a note for
 * people too; the same text lies on the drive and on the computer.
 *
 * @param runId UUID of the run, which every stamp carries
 * @param writtenAt ISO-8601 instant in UTC
 * @param files in the order in which they are to be read
 */
public record KeepsakeList(String runId, String writtenAt, List<WrittenFile> files) {

    /** Longest text that is read, in bytes. */
    public static final int LONGEST = 1 << 20;

    private static final String TITLE = "tracksoak keepsake 1";
    private static final Pattern RUN = Pattern.compile("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}");
    private static final Pattern NAME = Pattern.compile("[a-z0-9][a-z0-9-]{0,100}\\.soak");
    private static final Pattern NUMBER = Pattern.compile("[0-9]{1,15}");
    private static final int MOST_FILES = 10_000;
    private static final int LARGEST_HEADER = 64 << 20;
    private static final long MOST_BLOCKS = 1L << 36;
    private static final int FIELDS = 6;

    public KeepsakeList {
        files = List.copyOf(files);
    }

    /** Size of the data, in bytes. */
    public long bytes() {
        return files.stream().mapToLong(WrittenFile::dataBytes).sum();
    }

    /** The run as its stamps carry it. */
    public long runNumber() {
        return UUID.fromString(runId).getLeastSignificantBits();
    }

    /**
     * Chooses whole files until at least {@code bytes} are together, small ones first; all of them if there are fewer.
     *
     * @param written all files of the run that lie on the drive and were read back as written
     */
    public static KeepsakeList chosen(String runId, String writtenAt, List<WrittenFile> written, long bytes) {
        List<WrittenFile> sorted = new ArrayList<>(written);
        sorted.sort((a, b) -> Long.compare(a.blocks(), b.blocks()));
        List<WrittenFile> chosen = new ArrayList<>();
        long sum = 0;
        for (WrittenFile file : sorted) {
            if (sum < bytes && file.blocks() > 0 && chosen.size() < MOST_FILES) {
                chosen.add(file);
                sum += file.dataBytes();
            }
        }
        return new KeepsakeList(runId, writtenAt, chosen);
    }

    /** The text. */
    public String text() {
        StringBuilder text = new StringBuilder(TITLE)
                .append(
                        "\nA test of this drive left these test patterns here, so that a later test can show what the drive"
                                + " has kept.\nThey are no audio: never play them. This folder may be deleted at any time.\n\nrun ")
                .append(runId)
                .append("\nwritten ")
                .append(writtenAt)
                .append('\n');
        for (WrittenFile file : files) {
            text.append("file ")
                    .append(file.name())
                    .append(' ')
                    .append(file.stream())
                    .append(' ')
                    .append(file.pass())
                    .append(' ')
                    .append(file.firstBlock())
                    .append(' ')
                    .append(file.blocks())
                    .append(' ')
                    .append(file.headerBytes())
                    .append('\n');
        }
        return text.toString();
    }

    /** Reads the text, which may come from anywhere; empty if it is none or anything in it is out of bounds. */
    public static Optional<KeepsakeList> parse(String text) {
        if (text.length() > LONGEST || !text.startsWith(TITLE + "\n")) {
            return Optional.empty();
        }
        String run = "";
        String written = "";
        List<WrittenFile> files = new ArrayList<>();
        Set<String> names = new HashSet<>();
        for (String line : text.split("\n", -1)) {
            if (line.startsWith("run ")) {
                run = line.substring(4);
            } else if (line.startsWith("written ")) {
                written = line.substring(8);
            } else if (line.startsWith("file ")) {
                Optional<WrittenFile> file = file(line.substring(5));
                if (file.isEmpty()
                        || files.size() >= MOST_FILES
                        || !names.add(file.get().name())) {
                    return Optional.empty();
                }
                files.add(file.get());
            }
        }
        if (!RUN.matcher(run).matches() || files.isEmpty()) {
            return Optional.empty();
        }
        try {
            return Optional.of(new KeepsakeList(run, Instant.parse(written).toString(), files));
        } catch (DateTimeParseException e) {
            return Optional.empty();
        }
    }

    private static Optional<WrittenFile> file(String line) {
        String[] words = line.split(" ", -1);
        if (words.length != FIELDS || !NAME.matcher(words[0]).matches()) {
            return Optional.empty();
        }
        long[] numbers = new long[FIELDS];
        for (int i = 1; i < FIELDS; i++) {
            if (!NUMBER.matcher(words[i]).matches()) {
                return Optional.empty();
            }
            numbers[i] = Long.parseLong(words[i]);
        }
        boolean fine = numbers[1] < Integer.MAX_VALUE
                && numbers[2] < Integer.MAX_VALUE
                && numbers[3] <= MOST_BLOCKS
                && numbers[4] >= 1
                && numbers[4] <= MOST_BLOCKS
                && numbers[5] >= Stamp.BLOCK
                && numbers[5] <= LARGEST_HEADER
                && numbers[5] % Stamp.BLOCK == 0;
        return fine
                ? Optional.of(new WrittenFile(
                        words[0], (int) numbers[1], (int) numbers[2], numbers[3], numbers[4], (int) numbers[5]))
                : Optional.empty();
    }
}
