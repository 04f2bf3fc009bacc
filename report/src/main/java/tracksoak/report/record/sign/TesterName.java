package tracksoak.report.record.sign;

import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.report.record.facts.RecordException;

/** What a tester may be called: 1 to 60 characters that all show. Stateless. */
public final class TesterName {

    /** Longest name in characters. */
    public static final int LONGEST = 60;

    private TesterName() {}

    /**
     * The name without white space at its ends.
     *
     * @throws RecordException if nothing is left, it is too long, or something in it does not show
     */
    public static String checked(String raw) {
        String name = Inert.kept(raw);
        if (name != null && name.length() > LONGEST) {
            throw new RecordException(
                    "the tester's name cannot be used",
                    "",
                    "\"" + Inert.text(raw) + "\" has " + Count.number(name.length()) + " characters, allowed are 1 to "
                            + LONGEST,
                    "shorten it");
        }
        if (name == null || !Inert.text(name).equals(name)) {
            throw new RecordException(
                    "the tester's name cannot be used",
                    "",
                    "\"" + Inert.text(raw) + "\" is empty or holds characters that do not show",
                    "give a plain name, for example Ada");
        }
        return name;
    }
}
