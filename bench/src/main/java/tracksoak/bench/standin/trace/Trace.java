package tracksoak.bench.standin.trace;

import java.io.BufferedInputStream;
import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.function.Consumer;
import tracksoak.profiles.base.Digests;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/**
 * What stands at the head of a trace, and how it ended.
 *
 * @param startEpochMs when it begins, in ms since 1970
 * @param driveBytes size of the drive
 * @param entries how many there are
 * @param whole whether it was ended in order; else its last entries may be missing
 * @param strayBytes bytes behind its end, which belong to nothing
 * @param sha256 of the file, in 64 hexadecimal digits
 */
public record Trace(long startEpochMs, long driveBytes, long entries, boolean whole, long strayBytes, String sha256) {

    private static final Asked[] ASKED = Asked.values();

    /**
     * Reads a trace from beginning to end, holding one entry at a time.
     *
     * @param each is given the entries, that of the end excepted
     * @throws Problem if the file cannot be read or is no trace
     */
    public static Trace read(Path path, Consumer<Entry> each) {
        MessageDigest digest = Digests.sha256();
        try (InputStream raw = Files.newInputStream(path);
                DataInputStream in =
                        new DataInputStream(new BufferedInputStream(new DigestInputStream(raw, digest), 1 << 16))) {
            byte[] magic = in.readNBytes(TraceWriter.MAGIC.length);
            if (!Arrays.equals(magic, TraceWriter.MAGIC)) {
                throw refused(
                        path, "it does not begin as a trace does", "name a file that tracksoak stand-in serve wrote");
            }
            int version = in.readInt();
            if (version != TraceWriter.VERSION) {
                throw new Problem(
                        Problem.Kind.NEWER,
                        "This trace cannot be read",
                        Inert.quoted(path),
                        "its form is version " + version + ", known is " + TraceWriter.VERSION,
                        "use the version of tracksoak that wrote it, or a newer one");
            }
            long start = in.readLong();
            long bytes = in.readLong();
            Decoder decoder = new Decoder(in, bytes);
            boolean whole = decoder.all(each, path);
            long stray = in.transferTo(OutputStream.nullOutputStream());
            return new Trace(
                    start, bytes, decoder.entries, whole, stray, HexFormat.of().formatHex(digest.digest()));
        } catch (NoSuchFileException none) {
            throw refused(path, "there is no such file", "check the path");
        } catch (EOFException cut) {
            throw refused(path, "it ends within its first line", "name a file that tracksoak stand-in serve wrote");
        } catch (IOException e) {
            throw refused(path, Problem.reason(e), "check the path and its permissions");
        }
    }

    private static Problem refused(Path path, String why, String todo) {
        return new Problem(Problem.Kind.REFUSED, "This trace cannot be read", Inert.quoted(path), why, todo);
    }

    private static final class Decoder {
        private final DataInputStream in;
        private final long driveBytes;
        private long us;
        private long nextOffset;
        private long lastLength;
        private long entries;

        Decoder(DataInputStream in, long driveBytes) {
            this.in = in;
            this.driveBytes = driveBytes;
        }

        /** Reads on; false if the trace breaks off. */
        boolean all(Consumer<Entry> each, Path path) throws IOException {
            while (true) {
                Entry entry;
                try {
                    int head = in.read();
                    if (head < 0) {
                        return false;
                    }
                    entry = one(head, path);
                } catch (EOFException cut) {
                    return false;
                }
                if (entry.is(Note.END)) {
                    return entry.length() == entries;
                }
                entries++;
                each.accept(entry);
            }
        }

        private Entry one(int head, Path path) throws IOException {
            int code = head & 7;
            if (code >= ASKED.length) {
                throw damaged(path);
            }
            Asked asked = ASKED[code];
            int unit = (head & TraceWriter.IN_SECTORS) != 0 ? TraceWriter.SECTOR : 1;
            us = sum(us, number(path), path);
            long offset = nextOffset;
            if ((head & TraceWriter.CONTINUES) == 0) {
                long coded = number(path);
                offset = sum(nextOffset, times(coded >>> 1 ^ -(coded & 1), unit, path), path);
            }
            long length = (head & TraceWriter.SAME_LENGTH) != 0 ? lastLength : times(number(path), unit, path);
            long waited = number(path);
            long served = number(path);
            sum(sum(us, waited, path), served, path);
            if (asked != Asked.NOTE) {
                boolean failed = (head & TraceWriter.FAILED) != 0;
                if (!failed && (offset < 0 || length < 0 || length > driveBytes || offset > driveBytes - length)) {
                    throw damaged(path);
                }
                nextOffset = sum(offset, length, path);
                lastLength = length;
            }
            return new Entry(
                    asked,
                    (head & TraceWriter.THROUGHOUT) != 0,
                    (head & TraceWriter.FAILED) != 0,
                    us,
                    offset,
                    length,
                    waited,
                    served);
        }

        private long number(Path path) throws IOException {
            long value = 0;
            for (int shift = 0; shift < 64; shift += 7) {
                int piece = in.readUnsignedByte();
                value |= (long) (piece & 0x7F) << shift;
                if (piece < 0x80) {
                    return value;
                }
            }
            throw damaged(path);
        }

        private static long sum(long a, long b, Path path) {
            try {
                return Math.addExact(a, b);
            } catch (ArithmeticException tooLarge) {
                throw damaged(path);
            }
        }

        private static long times(long a, int b, Path path) {
            try {
                return Math.multiplyExact(a, b);
            } catch (ArithmeticException tooLarge) {
                throw damaged(path);
            }
        }

        private static Problem damaged(Path path) {
            return refused(path, "it is damaged", "serve and record again");
        }
    }
}
