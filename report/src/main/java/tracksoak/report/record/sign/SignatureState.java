package tracksoak.report.record.sign;

/** What a signature is worth. */
public enum SignatureState {
    /** Made with a known key over exactly this. */
    GOOD,
    /** It does not belong to what it stands beside: that, or the signature, was changed. */
    CHANGED,
    /** It fits, but nobody has made the key known. */
    UNKNOWN_KEY,
    /** It fits, but the key was revoked. */
    REVOKED
}
