package tracksoak.report.roster.standing;

import java.util.Locale;

/** What a drive is worth for a session. */
public enum Standing {
    /** The session's whole length at its pace and its bytes were proven within the validity, and nothing against it since. */
    TRUSTED,
    /** A full PASS, still valid, and nothing against it since. */
    CLEARED,
    /** A full PASS, but too long ago: test again. */
    DUE,
    /** A FAIL, and no full PASS since. */
    FAILED,
    /** No record that says anything of this session. */
    UNPROVEN,
    /** A person took it out of use. */
    WITHDRAWN;

    /** In lower case, for JSON and options. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
