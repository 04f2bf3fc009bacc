package tracksoak.report.record.facts;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import tracksoak.profiles.base.KebabCase;

/** The plans of a run. Records hold {@link #word}; one of a newer program may hold others. */
public enum PlanName {
    /** Nothing is obviously wrong. */
    LINE_CHECK,
    /** Trusted for the session. */
    SOUND_CHECK,
    /** Trusted, and its room is proven. */
    FULL_SHOW,
    /** What brings the drive of a climb to steady state. */
    CLIMB_FILL,
    /** One short look of a climb. */
    CLIMB_TAKE;

    /** The plans people can ask for. */
    public static final List<PlanName> ASKED =
            Stream.of(values()).filter(name -> !name.ofClimb()).toList();

    /** The plan of that word; empty for a word this program does not know. */
    public static Optional<PlanName> of(String word) {
        return KebabCase.read(PlanName.class, word);
    }

    /** As records, scripts and command lines know it: {@code line-check}. */
    public String word() {
        return KebabCase.of(this);
    }

    /** Whether it is a part of a climb, which nobody asks for by name and which is not read back. */
    public boolean ofClimb() {
        return this == CLIMB_FILL || this == CLIMB_TAKE;
    }

    /** Whether a PASS of it, not shortened, makes a drive trusted. */
    public boolean trusts() {
        return this == SOUND_CHECK || this == FULL_SHOW;
    }
}
