package tracksoak.report.record.sign;

import java.security.GeneralSecurityException;
import java.security.KeyFactory;
import java.security.KeyPairGenerator;
import java.security.PrivateKey;
import java.security.Signature;
import java.security.spec.PKCS8EncodedKeySpec;
import java.util.Arrays;
import java.util.HexFormat;
import tracksoak.profiles.base.Inert;
import tracksoak.report.record.facts.RecordException;

/**
 * A tester's own key, with which they sign what they measure and decide: Ed25519 (RFC 8032) of the JDK. Immutable; any
 * thread. Kept by {@link TesterKeys}; the private half is never shown, and not in {@link #toString}.
 */
public final class TesterKey {

    private static final byte[] PKCS8_HEAD = HexFormat.of().parseHex("302e020100300506032b657004220420");
    private static final int BYTES = 32;

    private final String name;
    private final PrivateKey secret;
    private final VerifyKey open;

    private TesterKey(String name, PrivateKey secret, VerifyKey open) {
        this.name = TesterName.checked(name);
        this.secret = secret;
        this.open = open;
    }

    /**
     * A new key from the system's secure random numbers.
     *
     * @param name the tester's name
     * @throws RecordException if the name cannot be one, see {@link TesterName}
     */
    public static TesterKey create(String name) {
        try {
            java.security.KeyPair pair = KeyPairGenerator.getInstance("Ed25519").generateKeyPair();
            return new TesterKey(name, pair.getPrivate(), VerifyKey.of(pair.getPublic()));
        } catch (GeneralSecurityException e) {
            throw noEd25519(e);
        }
    }

    /** A new key of a tester who did not say how to be called: {@code tester 1f0a}, by the beginning of the key's id. */
    static TesterKey createUnnamed() {
        TesterKey key = create("tester");
        return new TesterKey("tester " + key.id().substring(0, 4), key.secret, key.open);
    }

    /** The key with these 32 secret bytes (the seed of RFC 8032 §5.1.5) and its public half. */
    static TesterKey of(String name, byte[] seed, VerifyKey open) {
        byte[] encoded = Arrays.copyOf(PKCS8_HEAD, PKCS8_HEAD.length + BYTES);
        System.arraycopy(seed, 0, encoded, PKCS8_HEAD.length, BYTES);
        try {
            TesterKey key = new TesterKey(
                    name, KeyFactory.getInstance("Ed25519").generatePrivate(new PKCS8EncodedKeySpec(encoded)), open);
            byte[] probe = {1, 2, 3};
            if (!open.holds(probe, key.sign(probe))) {
                throw new RecordException(
                        "the tester's key cannot be used",
                        "",
                        "its two halves do not belong together",
                        "restore the file from a copy, or remove it and a new key is made");
            }
            return key;
        } catch (GeneralSecurityException e) {
            throw noEd25519(e);
        }
    }

    byte[] seed() {
        byte[] encoded = secret.getEncoded();
        return Arrays.copyOfRange(encoded, encoded.length - BYTES, encoded.length);
    }

    /** The tester's name. */
    public String name() {
        return name;
    }

    /** The public half. */
    public VerifyKey verifyKey() {
        return open;
    }

    /** Name of the key, see {@link VerifyKey#id}. */
    public String id() {
        return open.id();
    }

    /** Signs bytes; the same bytes give the same 64-byte signature. */
    public byte[] sign(byte[] bytes) {
        try {
            Signature signature = Signature.getInstance("Ed25519");
            signature.initSign(secret);
            signature.update(bytes);
            return signature.sign();
        } catch (GeneralSecurityException e) {
            throw noEd25519(e);
        }
    }

    @Override
    public String toString() {
        return "key " + id() + " of " + Inert.text(name);
    }

    private static RecordException noEd25519(GeneralSecurityException e) {
        return new RecordException(
                "nothing can be signed",
                "",
                "this Java cannot do Ed25519: " + e.getMessage(),
                "use Java 17 or newer",
                e);
    }
}
