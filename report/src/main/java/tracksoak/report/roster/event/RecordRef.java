package tracksoak.report.roster.event;

/**
 * The record an event enters, and its own signature.
 *
 * @param sha256 SHA-256 of the record's canonical JSON, 64 hexadecimal digits
 * @param by name of its tester
 * @param key the tester's public key, 43 characters of base64url
 * @param signature the tester's signature, 86 characters of base64url
 */
public record RecordRef(String sha256, String by, String key, String signature) {}
