package tracksoak.report.roster.store;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tracksoak.report.roster.event.EventJson;
import tracksoak.report.roster.event.EventName;
import tracksoak.report.roster.exchange.ParcelLines;

/**
 * Finds the rows of a roster in the bytes of its SQLite file, whatever became of the tables, pages and pointers around them ("Database File
 * Format", https://www.sqlite.org/fileformat2.html: varints, record format, b-tree pages, payload overflow). A row is looked for at every byte
 * of every page, for its header says how long it is and must agree with itself. Nothing found is checked here. One thread; holds one page,
 * one row, and the names and places of at most {@value #MOST} rows.
 */
final class FilePages implements Closeable {

    /** Most events, and most records, of which the names or places are kept. */
    private static final int MOST = 1_000_000;

    /** What a roster's own file always has. */
    private static final int USUAL_PAGE = 4096;

    private static final int HEADER = 100;
    private static final int TABLE_LEAF = 0x0d;
    private static final int SHA256 = 64;
    private static final int BODY = 8;
    private static final int LEAST_COLUMNS = 10;
    private static final int MOST_COLUMNS = 30;

    /** Events are canonical JSON, whose parts are in order of name: this is the first. */
    private static final byte[] BEGINS = "{\"at\":\"".getBytes(StandardCharsets.US_ASCII);

    /** Serial type of a text as long as a name of an event. */
    private static final long NAME = 13 + 2L * EventName.LONGEST;

    private final FileChannel channel;
    private final int pageBytes;
    private final int usable;
    private final byte[] page;
    private final Map<String, List<Long>> bodies = new HashMap<>();
    private final Set<String> names = new HashSet<>();

    /** Told what was found. */
    interface Found {

        /**
         * A text that may be an event.
         *
         * @param inPlace whether a page of a table holds it as one of its rows; else it may as well stand in the content of another row
         */
        void event(byte[] json, boolean inPlace);
    }

    FilePages(Path file) throws IOException {
        channel = FileChannel.open(file);
        try {
            byte[] head = Arrays.copyOf(read(0, HEADER), HEADER);
            boolean whole = Arrays.equals(head, 0, 16, FileHeader.SQLITE, 0, 16);
            int said = whole ? (head[16] & 0xff) << 8 | (head[17] & 0xff) : 0;
            int bytes = said == 1 ? 1 << 16 : said;
            pageBytes = bytes >= 512 && Integer.bitCount(bytes) == 1 ? bytes : USUAL_PAGE;
            int kept = whole ? head[20] & 0xff : 0;
            usable = pageBytes - (kept <= 32 ? kept : 0);
            page = new byte[usable];
        } catch (IOException e) {
            channel.close();
            throw e;
        }
    }

    /** Looks where the records lie, and which names of events there are. */
    void index() throws IOException {
        for (long number = 1; load(number); number++) {
            for (int at = 0; at < usable; at++) {
                name(at);
                Row row = row(at);
                if (row != null && row.isRecord() && bodies.size() < MOST) {
                    long place = (number - 1) * pageBytes + at;
                    bodies.computeIfAbsent(text(row.from + row.head, SHA256), sha -> new ArrayList<>(1))
                            .add(place);
                }
            }
        }
    }

    /** Names of events in the tree by which the database finds them, and in rows; {@link #index} found them. */
    Set<String> names() {
        return names;
    }

    /** Hands over the texts of events, each as often as it is found. */
    void events(Found found) throws IOException {
        for (long number = 1; load(number); number++) {
            BitSet rows = rows();
            for (int at = 0; at < usable; at++) {
                Row row = row(at);
                if (row != null && row.isEvent()) {
                    byte[] content = content(row);
                    int from = (int) (row.head + row.before(BODY));
                    int to = from + (int) size(row.types[BODY]);
                    if (content.length >= to) {
                        found.event(Arrays.copyOfRange(content, from, to), rows.get(at));
                    }
                    load(number); // the rest of the row may lie in other pages
                }
                int end = endOfText(at);
                if (end > 0) {
                    found.event(Arrays.copyOfRange(page, at, end), false);
                }
            }
        }
    }

    /** How often a record is there, whole or not; {@link #index} found them. */
    int copies(String sha256) {
        return bodies.getOrDefault(sha256, List.of()).size();
    }

    /** One copy of a record as it lies there, compressed. */
    Optional<byte[]> body(String sha256, int copy) throws IOException {
        long place = bodies.getOrDefault(sha256, List.of()).get(copy);
        load(place / pageBytes + 1);
        Row row = row((int) (place % pageBytes));
        if (row == null) {
            return Optional.empty();
        }
        byte[] content = content(row);
        int from = row.head + SHA256;
        return content.length < from
                ? Optional.empty()
                : Optional.of(Arrays.copyOfRange(content, from, content.length));
    }

    @Override
    public void close() throws IOException {
        channel.close();
    }

    /**
     * The beginning of a row.
     *
     * @param payload bytes of header and content
     * @param from where the header begins in the page
     * @param head bytes of the header
     * @param types serial types of the columns
     */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    private record Row(long payload, int from, int head, long[] types) {

        boolean isRecord() {
            return types.length == 2 && types[0] == 13 + 2L * SHA256 && types[1] >= 12 && types[1] % 2 == 0;
        }

        boolean isEvent() {
            return types.length >= LEAST_COLUMNS
                    && isText(types[0])
                    && isText(types[BODY])
                    && size(types[BODY]) <= EventJson.MOST_BYTES;
        }

        long before(int column) {
            long bytes = 0;
            for (int i = 0; i < column; i++) {
                bytes += size(types[i]);
            }
            return bytes;
        }

        private static boolean isText(long type) {
            return type >= 13 && type % 2 == 1;
        }
    }

    /** The cell of a table's leaf page that begins here, null where none can. */
    private @Nullable Row row(int at) {
        Varints in = new Varints(at);
        long payload = in.next();
        in.next(); // number of the row
        int from = in.at;
        long head = in.next();
        if (payload < 4 || payload > ParcelLines.LONGEST || head < 3 || head > 100 || from + head > usable) {
            return null;
        }
        long[] types = new long[MOST_COLUMNS];
        int columns = 0;
        long bytes = head;
        while (in.at < from + head) {
            long type = in.next();
            if (columns == MOST_COLUMNS || type < 0 || bytes > payload) {
                return null;
            }
            types[columns++] = type;
            bytes += size(type);
        }
        return in.at == from + head && bytes == payload
                ? new Row(payload, from, (int) head, Arrays.copyOf(types, columns))
                : null;
    }

    private static long size(long type) {
        if (type >= 12) {
            return (type - 12) / 2;
        }
        return type < 5 ? type : type == 5 ? 6 : type < 8 ? 8 : 0;
    }

    /** Header and content of a row, as much of it as the chain of its pages leads to; the page held may be another afterwards. */
    private byte[] content(Row row) throws IOException {
        int most = usable - 35;
        int least = (usable - 12) * 32 / 255 - 23;
        int spread = least + (int) ((row.payload - least) % (usable - 4));
        int here = row.payload <= most ? (int) row.payload : spread <= most ? spread : least;
        byte[] content = new byte[(int) row.payload];
        int got = Math.min(here, usable - row.from);
        System.arraycopy(page, row.from, content, 0, got);
        if (got < here) {
            return Arrays.copyOf(content, got);
        }
        int link = row.from + here;
        while (got < content.length) {
            if (link + 4 > usable || !load(ByteBuffer.wrap(page).getInt(link) & 0xffffffffL)) {
                return Arrays.copyOf(content, got);
            }
            int more = Math.min(content.length - got, usable - 4);
            System.arraycopy(page, 4, content, got, more);
            got += more;
            link = 0;
        }
        return content;
    }

    /** Where the page itself says that its rows begin. */
    private BitSet rows() {
        BitSet rows = new BitSet(usable);
        if (page[0] == TABLE_LEAF) {
            int cells = Math.min(two(3), (usable - 8) / 2);
            for (int i = 0; i < cells; i++) {
                rows.set(two(8 + 2 * i));
            }
        }
        return rows;
    }

    private int two(int at) {
        return (page[at] & 0xff) << 8 | (page[at + 1] & 0xff);
    }

    /** Where the JSON text ends that begins here as events do; 0 where none does or it does not end in this page. */
    private int endOfText(int at) {
        if (!Arrays.equals(page, at, Math.min(usable, at + BEGINS.length), BEGINS, 0, BEGINS.length)) {
            return 0;
        }
        int depth = 0;
        boolean quoted = false;
        for (int i = at; i < usable; i++) {
            byte c = page[i];
            if (quoted && c == '\\') {
                i++;
            } else if (c == '"') {
                quoted = !quoted;
            } else if (!quoted && c == '{') {
                depth++;
            } else if (!quoted && c == '}' && --depth == 0) {
                return i + 1;
            }
        }
        return 0;
    }

    /** Keeps the name that the first column here holds, of an entry in the tree of names as of a row. */
    private void name(int at) {
        Varints in = new Varints(at);
        long head = in.next();
        if (head >= 3 && head <= 100 && in.next() == NAME && at + head + EventName.LONGEST <= usable) {
            String name = text(at + (int) head, EventName.LONGEST);
            if (EventName.isWhole(name) && names.size() < MOST) {
                names.add(name);
            }
        }
    }

    private String text(int at, int bytes) {
        return at + bytes > usable ? "" : new String(page, at, bytes, StandardCharsets.ISO_8859_1);
    }

    /** Whether there is such a page. One that the disk does not give is empty: the next may be whole. */
    private boolean load(long number) throws IOException {
        if (number < 1 || (number - 1) * pageBytes >= channel.size()) {
            return false;
        }
        byte[] bytes;
        try {
            bytes = read((number - 1) * pageBytes, usable);
        } catch (IOException badSector) {
            bytes = new byte[0];
        }
        System.arraycopy(bytes, 0, page, 0, bytes.length);
        Arrays.fill(page, bytes.length, usable, (byte) 0);
        return true;
    }

    private byte[] read(long from, int most) throws IOException {
        ByteBuffer bytes = ByteBuffer.allocate(most);
        while (bytes.hasRemaining() && channel.read(bytes, from + bytes.position()) > 0) {
            // until the file ends
        }
        return Arrays.copyOf(bytes.array(), bytes.position());
    }

    /** Numbers of one to nine bytes, one after another. */
    private final class Varints {
        private int at;

        Varints(int at) {
            this.at = at;
        }

        /** -1 where the page ends. */
        long next() {
            long value = 0;
            for (int i = 0; i < 9 && at < usable; i++) {
                byte b = page[at++];
                value = i == 8 ? value << 8 | (b & 0xff) : value << 7 | (b & 0x7f);
                if (b >= 0 || i == 8) {
                    return value;
                }
            }
            return -1;
        }
    }
}
