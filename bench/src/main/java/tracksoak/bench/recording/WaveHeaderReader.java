package tracksoak.bench.recording;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;

/**
 * Reads the header of a WAVE file: RIFF, RF64 and BW64, plain and extensible, with and without the broadcast extension. A file may
 * hold anything: every size is held against the file's own, and the number of chunks is bounded. One thread.
 */
public final class WaveHeaderReader {

    private static final int MOST_CHUNKS = 4096;
    /** What memory of some kinds holds where nothing was written. */
    private static final byte ERASED = -1;

    private static final int MOST_CHANNELS = 1024;
    private static final long UNKNOWN = 0xFFFF_FFFFL;
    private static final long MOST_SIGNED = 0x7FFF_FFFFL;
    private static final int SLACK = 8192;
    private static final int TIME_REFERENCE_AT = 338;
    private static final int SPECIMEN = 4096;

    /** Chunks that stand behind the samples: EBU Tech 3285, RIFF of 1991, ITU-R BS.2088, and what programs add. */
    private static final Set<String> NOTES = Set.of(
            "LIST", "bext", "iXML", "axml", "chna", "cue ", "smpl", "inst", "fact", "plst", "JUNK", "PAD ", "FLLR",
            "id3 ", "ID3 ", "cart", "umid", "levl", "link", "PEAK");

    /** Size of a tag of ID3v1, which stands at the very end of a file and begins with three letters. */
    private static final int TAG_BYTES = 128;

    private static final int PCM = 1;
    private static final int FLOAT = 3;
    private static final int EXTENSIBLE = 0xFFFE;

    /** The end of every sub-format that stands for a plain format tag. */
    private static final long[] WAVE_GUID = {0x0010_0000_0000L, 0x719B_3800_AA00_0080L};

    private final FileBytes file;
    private final long fileBytes;
    private final WaveHeader.Container container;
    private final long outer32;
    private @Nullable WaveFormat format;
    private @Nullable Long timeReference;
    /** Where the file ends, or the tag behind everything else begins. */
    private long end;

    private long outer64 = -1;
    private long data64 = -1;

    private WaveHeaderReader(FileBytes file) throws IOException, UnreadableWave {
        this.file = file;
        fileBytes = file.sizeBytes();
        end = fileBytes;
        if (fileBytes == 0) {
            throw new UnreadableWave("it is empty");
        }
        ByteBuffer head = at(0, 12);
        String id = head.remaining() >= 4 ? id(head, 0) : "";
        container = switch (id) {
            case "RIFF" -> WaveHeader.Container.RIFF;
            case "RF64" -> WaveHeader.Container.RF64;
            case "BW64" -> WaveHeader.Container.BW64;
            default -> throw new UnreadableWave("it does not begin as a WAVE file does");
        };
        if (head.remaining() < 12) {
            throw cut();
        }
        if (!id(head, 8).equals("WAVE")) {
            throw new UnreadableWave("it is a RIFF file, but no WAVE");
        }
        outer32 = u32(head, 4);
    }

    /**
     * Reads it.
     *
     * @param file stays open
     * @throws UnreadableWave if it is none, or holds no samples that could be told
     * @throws IOException if the file cannot be read
     */
    public static WaveHeader read(FileBytes file) throws IOException, UnreadableWave {
        return new WaveHeaderReader(file).header();
    }

    private UnreadableWave cut() {
        return new UnreadableWave("it ends inside its header, after " + Units.bytes(fileBytes));
    }

    private WaveHeader header() throws IOException, UnreadableWave {
        long at = 12;
        for (int chunk = 0; chunk < MOST_CHUNKS; chunk++) {
            ByteBuffer head = at(at, 8);
            if (head.remaining() < 8) {
                throw cut();
            }
            long size = u32(head, 4);
            if (id(head, 0).equals("data")) {
                return samples(at + 8, size);
            }
            take(id(head, 0), at + 8, size);
            at = next(at + 8 + size, size);
        }
        throw new UnreadableWave("it has more than " + MOST_CHUNKS + " parts and no samples among them");
    }

    private void take(String id, long at, long size) throws IOException, UnreadableWave {
        switch (id) {
            case "ds64" -> {
                ByteBuffer sizes = at(at, 16);
                if (size >= 16 && sizes.remaining() == 16) {
                    outer64 = sizes.getLong(0);
                    data64 = sizes.getLong(8);
                }
            }
            case "fmt " -> format = format(at(at, (int) Math.min(size, 40)));
            case "bext" -> {
                ByteBuffer reference = at(at + TIME_REFERENCE_AT, 8);
                if (size >= TIME_REFERENCE_AT + 8 && reference.remaining() == 8 && reference.getLong(0) >= 0) {
                    timeReference = reference.getLong(0);
                }
            }
            default -> {
                // of no use here
            }
        }
    }

    private static WaveFormat format(ByteBuffer fmt) throws UnreadableWave {
        if (fmt.remaining() < 16) {
            throw new UnreadableWave("it ends inside its header");
        }
        int tag = u16(fmt, 0);
        int channels = u16(fmt, 2);
        long rate = u32(fmt, 4);
        int frameBytes = u16(fmt, 12);
        int bits = u16(fmt, 14);
        int validBits = bits;
        if (tag == EXTENSIBLE) {
            if (fmt.remaining() < 40) {
                throw new UnreadableWave("its format is extensible, but not said to its end");
            }
            tag = u16(fmt, 24);
            long rest = fmt.getLong(24) >>> 16;
            if (rest != WAVE_GUID[0] || fmt.getLong(32) != WAVE_GUID[1]) {
                throw UnreadableWave.foreign("its samples are of a kind that is not known here");
            }
            int valid = u16(fmt, 18);
            validBits = valid > 0 && valid <= bits ? valid : bits;
        }
        boolean known = (tag == PCM && bits >= 8 && bits <= 32) || (tag == FLOAT && (bits == 32 || bits == 64));
        if (!known) {
            throw UnreadableWave.foreign(String.format(
                    Locale.ROOT, "its samples are of a kind that is not known here: format %d, %d bits", tag, bits));
        }
        int bytes = frameBytes / Math.max(1, channels);
        // some recorders store 24 bits in 4 bytes and say so by this alone
        boolean fits = bytes == (bits + 7) / 8 || (tag == PCM && bits > 16 && bytes == 4);
        if (channels < 1 || channels > MOST_CHANNELS || frameBytes != channels * bytes || !fits) {
            throw new UnreadableWave("its header contradicts itself: " + Count.of(channels, "track") + " of " + bits
                    + " bits in " + frameBytes + " B");
        }
        if (rate < 1000 || rate > 1_000_000) {
            throw new UnreadableWave("its header tells a sample rate of " + rate + " Hz");
        }
        return new WaveFormat(channels, (int) rate, tag == FLOAT, bytes, validBits);
    }

    private WaveHeader samples(long dataAt, long size32) throws IOException, UnreadableWave {
        WaveFormat of = format;
        if (of == null) {
            throw new UnreadableWave("it does not say how its samples are stored before they begin");
        }
        boolean large = container != WaveHeader.Container.RIFF;
        long told = large && size32 == UNKNOWN ? data64 : size32;
        long there = fileBytes - dataAt;
        boolean untold = told < 0 || (!large && told > there && standsForUnknown(told));
        if (!untold && told <= there - TAG_BYTES && isTag(fileBytes - TAG_BYTES)) {
            end = fileBytes - TAG_BYTES;
        }
        long behind = untold ? there : behind(dataAt, told);
        boolean never = (told <= 0 && behind >= of.frameBytes()) || (untold && told > there);
        if (never) {
            return header(of, dataAt, there, there, WaveHeader.Finish.NEVER, 0);
        }
        if (told > there) {
            return header(of, dataAt, told, there, WaveHeader.Finish.CUT, 0);
        }
        boolean audio = behind >= of.frameBytes();
        boolean silent = audio && (holds((byte) 0, end - behind, behind) || holds(ERASED, end - behind, behind));
        return header(
                of,
                dataAt,
                Math.max(0, told),
                Math.max(0, told),
                audio && !silent ? WaveHeader.Finish.BEHIND : WaveHeader.Finish.DONE,
                audio ? behind : 0);
    }

    /** What recorders and programs write before they know the size: the largest there is, or a little less. */
    private static boolean standsForUnknown(long size32) {
        return size32 > UNKNOWN - SLACK || (size32 > MOST_SIGNED - SLACK && size32 <= MOST_SIGNED + 1);
    }

    private WaveHeader header(
            WaveFormat of, long dataAt, long told, long present, WaveHeader.Finish finish, long behind) {
        boolean large = container != WaveHeader.Container.RIFF;
        long outer = large && outer32 == UNKNOWN ? outer64 : outer32 == UNKNOWN || outer32 == 0 ? -1 : outer32;
        return new WaveHeader(
                container,
                of,
                dataAt,
                told,
                present,
                fileBytes,
                finish,
                behind,
                outer <= 0 || outer > Long.MAX_VALUE - 8 ? -1 : outer + 8,
                timeReference);
    }

    /** Bytes at the end of the file that belong to no chunk behind the samples. */
    private long behind(long dataAt, long told) throws IOException, UnreadableWave {
        if (told > fileBytes - dataAt) {
            return 0;
        }
        long at = next(dataAt + told, told);
        for (int chunk = 0; chunk < MOST_CHUNKS && at + 8 <= end; chunk++) {
            ByteBuffer head = at(at, 8);
            long size = head.remaining() == 8 ? u32(head, 4) : Long.MAX_VALUE;
            if (head.remaining() < 8 || !printable(head) || id(head, 0).equals("data")) {
                return end - at;
            }
            if (at + 8 + size > end) {
                // a note behind the samples that was cut off holds no audio; four letters by chance may
                return NOTES.contains(id(head, 0)) ? 0 : end - at;
            }
            if (id(head, 0).equals("bext")) {
                take("bext", at + 8, size);
            }
            at = next(at + 8 + size, size);
        }
        return Math.max(0, end - at);
    }

    private boolean isTag(long from) throws IOException {
        ByteBuffer head = at(from, 4);
        return head.remaining() == 4 && id(head, 0).startsWith("TAG");
    }

    /** Whether bytes, as far as they are looked at, are all the same. */
    private boolean holds(byte one, long from, long count) throws IOException {
        return specimenHolds(one, from, count)
                && specimenHolds(one, from + count / 2, count)
                && specimenHolds(one, end - Math.min(count, SPECIMEN), count);
    }

    private boolean specimenHolds(byte one, long from, long count) throws IOException {
        ByteBuffer specimen = at(from, (int) Math.min(Math.min(count, end - from), SPECIMEN));
        while (specimen.hasRemaining()) {
            if (specimen.get() != one) {
                return false;
            }
        }
        return true;
    }

    /** Where the next chunk begins: behind a padding byte where the size is odd, which some recorders leave out. */
    private long next(long end, long size) throws IOException {
        if ((size & 1) == 0) {
            return end;
        }
        ByteBuffer head = at(end, 9);
        boolean left = head.remaining() == 9 && printable(head) && !printable(head.slice(1, 8));
        return left ? end : end + 1;
    }

    private static boolean printable(ByteBuffer head) {
        for (int i = 0; i < 4; i++) {
            if (head.get(i) < ' ' || head.get(i) > '~') {
                return false;
            }
        }
        return true;
    }

    /** Bytes of the file, fewer where it ends. */
    private ByteBuffer at(long offset, int count) throws IOException {
        ByteBuffer bytes = ByteBuffer.allocate(count).order(ByteOrder.LITTLE_ENDIAN);
        while (bytes.hasRemaining() && file.read(bytes, offset + bytes.position()) > 0) {
            // goes on until it is full or the file ends
        }
        return bytes.flip();
    }

    private static String id(ByteBuffer bytes, int at) {
        byte[] id = new byte[4];
        bytes.get(at, id);
        return new String(id, StandardCharsets.ISO_8859_1);
    }

    private static int u16(ByteBuffer bytes, int at) {
        return Short.toUnsignedInt(bytes.getShort(at));
    }

    private static long u32(ByteBuffer bytes, int at) {
        return Integer.toUnsignedLong(bytes.getInt(at));
    }
}
