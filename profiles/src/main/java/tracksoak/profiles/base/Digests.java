package tracksoak.profiles.base;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;

/** SHA-256 (FIPS 180-4) and gzip (RFC 1952), which every Java has. Stateless. */
public final class Digests {

    private Digests() {}

    /** The 32 bytes. */
    public static byte[] sha256(byte[] bytes) {
        return sha256().digest(bytes);
    }

    /** The 64 hexadecimal digits, in lower case. */
    public static String sha256Hex(byte[] bytes) {
        return HexFormat.of().formatHex(sha256(bytes));
    }

    /** A SHA-256 to be fed piece by piece. */
    public static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("this Java has no SHA-256", e);
        }
    }

    /** Packs bytes. */
    public static byte[] gzip(byte[] plain) {
        ByteArrayOutputStream out = new ByteArrayOutputStream(plain.length / 4 + 64);
        try (GZIPOutputStream gzip = new GZIPOutputStream(out)) {
            gzip.write(plain);
        } catch (IOException e) {
            throw new IllegalStateException("memory cannot fail to be written", e);
        }
        return out.toByteArray();
    }

    /**
     * Unpacks bytes up to a limit, so that a few cannot become a flood.
     *
     * @return at most {@code mostBytes + 1} bytes: one more than allowed tells that there are more
     * @throws IOException if it is no gzip
     */
    public static byte[] gunzip(byte[] packed, int mostBytes) throws IOException {
        try (GZIPInputStream gzip = new GZIPInputStream(new ByteArrayInputStream(packed))) {
            return gzip.readNBytes(mostBytes + 1);
        }
    }
}
