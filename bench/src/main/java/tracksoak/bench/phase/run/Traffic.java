package tracksoak.bench.phase.run;

import tracksoak.report.record.facts.PhaseKind;

/** What a step asks of a link that other drives share. */
public enum Traffic {
    /** The pace of the session, or little beside it: others may work at theirs meanwhile. */
    AT_PACE,
    /** All that the link gives: nobody else may work there, or either would be measured wrong. */
    FLAT_OUT;

    static Traffic of(PhaseKind kind) {
        return switch (kind) {
            // a close must follow its take at once, and single blocks are few
            case TAKE, CLOSE, PLAYBACK, PROBES -> AT_PACE;
            case FILL, COPY, READ_BACK, KEEPSAKE -> FLAT_OUT;
        };
    }
}
