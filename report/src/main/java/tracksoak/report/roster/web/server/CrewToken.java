package tracksoak.report.roster.web.server;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.HexFormat;
import java.util.regex.Pattern;
import tracksoak.profiles.base.Digests;

/**
 * A crew token as the server keeps it: without the secret. The secret has 256 random bits, so a plain hash of it cannot be
 * turned back and needs no salt or stretching.
 *
 * @param id public part of the token, 12 hex digits
 * @param hash SHA-256 of the secret part, 64 hex digits
 * @param holder whose it is
 * @param madeAt ISO-8601 instant in UTC
 * @param until ISO-8601 instant in UTC from which it is worth nothing, empty for never
 * @param revokedAt ISO-8601 instant in UTC, empty while it is good
 */
public record CrewToken(String id, String hash, String holder, String madeAt, String until, String revokedAt) {

    private static final String PREFIX = "crew";
    private static final Pattern ID = Pattern.compile("[0-9a-f]{12}");
    private static final Pattern HASH = Pattern.compile("[0-9a-f]{64}");
    private static final Pattern FORM = Pattern.compile(PREFIX + "-([0-9a-f]{12})-([A-Za-z0-9_-]{43})");

    /** @throws IllegalArgumentException if id or hash has another form */
    public CrewToken {
        if (!ID.matcher(id).matches() || !HASH.matcher(hash).matches()) {
            throw new IllegalArgumentException("not a crew token: id \"" + id + "\"");
        }
    }

    /**
     * A new token with its secret, which is shown once and kept nowhere.
     *
     * @param text what its holder types or keeps
     */
    public record Fresh(CrewToken kept, String text) {}

    /** Makes one. */
    public static Fresh make(String holder, String madeAt, String until, SecureRandom random) {
        byte[] id = new byte[6];
        byte[] secret = new byte[32];
        random.nextBytes(id);
        random.nextBytes(secret);
        String hex = HexFormat.of().formatHex(id);
        String text = Base64.getUrlEncoder().withoutPadding().encodeToString(secret);
        return new Fresh(new CrewToken(hex, hash(text), holder, madeAt, until, ""), PREFIX + "-" + hex + "-" + text);
    }

    /** The same, worth nothing from {@code at} on. */
    public CrewToken revoked(String at) {
        return new CrewToken(id, hash, holder, madeAt, until, at);
    }

    /** The two parts of a token as sent. */
    record Shown(String id, String secret) {

        private static final Shown NONE = new Shown("", "");

        /** Parts of the text; empty ones where it is no token. */
        static Shown of(String text) {
            var parts = FORM.matcher(text);
            return parts.matches() ? new Shown(parts.group(1), parts.group(2)) : NONE;
        }
    }

    /** Whether the secret is the one, found out in a time that does not tell how much of it is right. */
    boolean opens(String secret) {
        return MessageDigest.isEqual(
                hash.getBytes(StandardCharsets.US_ASCII), hash(secret).getBytes(StandardCharsets.US_ASCII));
    }

    private static String hash(String secret) {
        return Digests.sha256Hex(secret.getBytes(StandardCharsets.US_ASCII));
    }
}
