package tracksoak.report.roster.standing;

import tracksoak.report.record.sign.SignatureState;

/** Orders signatures by what they are worth: good, of a key revoked since, of a key nobody knows, changed. Stateless. */
final class SignatureRank {

    private SignatureRank() {}

    /** 0 for the best. */
    static int rank(SignatureState state) {
        return switch (state) {
            case GOOD -> 0;
            case REVOKED -> 1;
            case UNKNOWN_KEY -> 2;
            case CHANGED -> 3;
        };
    }

    /** The one that is worth less. */
    static SignatureState weaker(SignatureState one, SignatureState other) {
        return rank(one) >= rank(other) ? one : other;
    }

    /** Whether it may lower trust: made by a key that is known or was. */
    static boolean cautious(SignatureState state) {
        return state == SignatureState.GOOD || state == SignatureState.REVOKED;
    }
}
