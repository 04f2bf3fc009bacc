package tracksoak.report.roster.web.server;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;

/** Compressed bodies (RFC 1952), in both directions. */
final class Gzip {

    private Gzip() {}

    static byte[] packed(byte[] plain) {
        ByteArrayOutputStream out = new ByteArrayOutputStream(plain.length / 4 + 64);
        try (GZIPOutputStream gzip = new GZIPOutputStream(out)) {
            gzip.write(plain);
        } catch (IOException e) {
            throw new IllegalStateException("memory cannot fail to be written", e);
        }
        return out.toByteArray();
    }

    /**
     * Inflates up to a limit, so that a few bytes cannot become a flood.
     *
     * @throws Refusal if it is no gzip, or inflates to more than {@code mostBytes}
     */
    static byte[] unpacked(byte[] packed, int mostBytes) {
        byte[] plain;
        try (GZIPInputStream gzip = new GZIPInputStream(new ByteArrayInputStream(packed))) {
            plain = gzip.readNBytes(mostBytes + 1);
        } catch (IOException e) {
            throw Exchange.bad("the body", "it says it is gzip, and is not");
        }
        if (plain.length > mostBytes) {
            throw tooLarge(mostBytes);
        }
        return plain;
    }

    static Refusal tooLarge(int mostBytes) {
        return new Refusal(
                413,
                "the request cannot be taken",
                "the body",
                "larger than " + mostBytes + " bytes",
                "send it in smaller batches");
    }
}
