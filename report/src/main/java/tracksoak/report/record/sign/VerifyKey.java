package tracksoak.report.record.sign;

import java.security.GeneralSecurityException;
import java.security.KeyFactory;
import java.security.PublicKey;
import java.security.Signature;
import java.security.spec.X509EncodedKeySpec;
import java.util.Arrays;
import java.util.Base64;
import java.util.HexFormat;
import tracksoak.profiles.base.Digests;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.json.RecordCheck;

/**
 * The public half of a tester's key: Ed25519 (RFC 8032). Immutable.
 *
 * @param text the 32 bytes of the key in base64url without padding, 43 characters
 */
public record VerifyKey(String text) {

    private static final byte[] X509_HEAD = HexFormat.of().parseHex("302a300506032b6570032100");
    private static final int BYTES = 32;
    private static final int SIGNATURE_BYTES = 64;

    /** @throws RecordException if the text is no 32 bytes in base64url, or a key of small order */
    public VerifyKey {
        byte[] raw = decode(text);
        if (raw.length != BYTES || !encode(raw).equals(text)) {
            throw new RecordException(
                    "the public key cannot be read",
                    "",
                    "\"" + RecordCheck.brief(text) + "\" is no 32 bytes in base64url",
                    "copy it again, whole");
        }
        if (SmallOrder.has(raw)) {
            throw new RecordException(
                    "the public key cannot be used",
                    "",
                    "\"" + RecordCheck.brief(text) + "\" is a key of small order, for which anybody can sign",
                    "ask its owner for their own key");
        }
    }

    static VerifyKey of(PublicKey key) {
        byte[] encoded = key.getEncoded();
        return new VerifyKey(encode(Arrays.copyOfRange(encoded, encoded.length - BYTES, encoded.length)));
    }

    /** Name of the key: the first 16 bytes of the SHA-256 of its 32, as 32 hexadecimal digits. */
    public String id() {
        return HexFormat.of().formatHex(Digests.sha256(decode(text)), 0, 16);
    }

    /** Whether a signature over these bytes was made with this key. Never throws; a damaged key or signature does not hold. */
    public boolean holds(byte[] signed, byte[] signature) {
        try {
            byte[] raw = decode(text);
            byte[] encoded = Arrays.copyOf(X509_HEAD, X509_HEAD.length + BYTES);
            System.arraycopy(raw, 0, encoded, X509_HEAD.length, BYTES);
            PublicKey key = KeyFactory.getInstance("Ed25519").generatePublic(new X509EncodedKeySpec(encoded));
            Signature check = Signature.getInstance("Ed25519");
            check.initVerify(key);
            check.update(signed);
            return check.verify(signature);
        } catch (GeneralSecurityException | IllegalArgumentException e) {
            return false;
        }
    }

    /** Bytes as base64url without padding. */
    public static String encode(byte[] bytes) {
        return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    }

    /** Bytes of a base64url text; none where it is not one. */
    public static byte[] decode(String text) {
        try {
            return Base64.getUrlDecoder().decode(text);
        } catch (IllegalArgumentException e) {
            return new byte[0];
        }
    }

    /**
     * The 64 bytes of a signature's text; none where it is not written in the one way there is. Another way of writing the same bytes
     * would be another event.
     */
    public static byte[] signature(String text) {
        byte[] raw = decode(text);
        return raw.length == SIGNATURE_BYTES && encode(raw).equals(text) ? raw : new byte[0];
    }
}
