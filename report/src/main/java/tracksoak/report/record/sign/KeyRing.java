package tracksoak.report.record.sign;

/** Which testers' keys are known. */
@FunctionalInterface
public interface KeyRing {

    /** A key as the crew knows it. */
    enum Status {
        KNOWN,
        UNKNOWN,
        REVOKED
    }

    /** Status of the key with an id as in {@link VerifyKey#id}. */
    Status status(String keyId);

    /** What a signature is worth that does or does not hold for its key. */
    default SignatureState judge(String keyId, boolean holds) {
        if (!holds) {
            return SignatureState.CHANGED;
        }
        return switch (status(keyId)) {
            case KNOWN -> SignatureState.GOOD;
            case UNKNOWN -> SignatureState.UNKNOWN_KEY;
            case REVOKED -> SignatureState.REVOKED;
        };
    }
}
