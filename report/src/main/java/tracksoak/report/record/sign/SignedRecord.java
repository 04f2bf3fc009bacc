package tracksoak.report.record.sign;

import java.nio.charset.StandardCharsets;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tracksoak.profiles.base.Digests;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.JsonStrings;
import tracksoak.report.record.json.RecordJson;

/**
 * A run record with its tester's signature. Signed is the canonical JSON (RFC 8785) of
 * {@code {"by":NAME,"key":ID,"record":RECORD,"schema":"tracksoak/signed-record/1"}}. The record is kept as the bytes that were
 * signed, so that a record of an old version keeps its signature for ever. Immutable; any thread.
 */
public final class SignedRecord {

    /** The schema of a signed record. */
    public static final String SCHEMA = "tracksoak/signed-record/1";

    private static final Pattern OLD = Pattern.compile(",\"schema\":\"tracksoak/run-record/[12]\"");
    private static final Pattern BIG_SEED = Pattern.compile(",\"seed\":\"(-?[0-9]{16,19})\"");

    private final byte[] canonical;
    private final String by;
    private final VerifyKey key;
    private final byte[] signature;

    private SignedRecord(byte[] canonical, String by, VerifyKey key, byte[] signature) {
        this.canonical = canonical;
        this.by = by;
        this.key = key;
        this.signature = signature;
    }

    /** Signs a record. */
    public static SignedRecord sign(RunRecord record, TesterKey key) {
        byte[] canonical = CanonicalJson.of(RecordJson.bytes(record));
        byte[] signature = key.sign(signed(canonical, key.name(), key.id()));
        return new SignedRecord(canonical, key.name(), key.verifyKey(), signature);
    }

    /**
     * Puts a signed record together of bytes that {@link #canonical} gave before: not looked at. Should they be anything else, the
     * signature does not hold.
     */
    public static SignedRecord kept(byte[] canonical, String by, VerifyKey key, byte[] signature) {
        return new SignedRecord(canonical.clone(), by, key, signature.clone());
    }

    /** Whether the signature belongs to the record, the name and the key. */
    public boolean holds() {
        return key.holds(signed(canonical, by, key.id()), signature);
    }

    /**
     * The record itself.
     *
     * @throws tracksoak.report.record.facts.RecordException if it is none, damaged or of a newer version
     */
    public RunRecord record() {
        return RecordJson.read(plain(canonical));
    }

    /** The record's canonical JSON in UTF-8. */
    public byte[] canonical() {
        return canonical.clone();
    }

    /** SHA-256 of {@link #canonical}, 64 hexadecimal digits: names the record wherever it lies. */
    public String sha256() {
        return Digests.sha256Hex(canonical);
    }

    /** Name of the tester. */
    public String by() {
        return by;
    }

    /** The key it is signed with. */
    public VerifyKey key() {
        return key;
    }

    /** The 64 bytes of the signature. */
    public byte[] signature() {
        return signature.clone();
    }

    private static byte[] signed(byte[] canonical, String by, String keyId) {
        byte[] head = CanonicalJson.of(JsonStrings.object("by", by, "key", keyId));
        byte[] start = (new String(head, 0, head.length - 1, StandardCharsets.UTF_8) + ",\"record\":")
                .getBytes(StandardCharsets.UTF_8);
        byte[] end = (",\"schema\":\"" + SCHEMA + "\"}").getBytes(StandardCharsets.UTF_8);
        byte[] all = new byte[start.length + canonical.length + end.length];
        System.arraycopy(start, 0, all, 0, start.length);
        System.arraycopy(canonical, 0, all, start.length, canonical.length);
        System.arraycopy(end, 0, all, start.length + canonical.length, end.length);
        return all;
    }

    /**
     * Records before version 3 had the seed as a number; one beyond 2^53 is a string in the canonical form. No string of JSON can
     * look so.
     */
    private static byte[] plain(byte[] canonical) {
        String text = new String(canonical, StandardCharsets.UTF_8);
        Matcher seed = BIG_SEED.matcher(text);
        return OLD.matcher(text).find() && seed.find()
                ? seed.replaceFirst(",\"seed\":$1").getBytes(StandardCharsets.UTF_8)
                : canonical;
    }
}
