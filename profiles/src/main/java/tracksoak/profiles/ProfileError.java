package tracksoak.profiles;

import tracksoak.profiles.base.Inert;

/**
 * One thing wrong with a session profile, complete enough to mend it without opening the manual. Texts come from outside
 * in part; they are clipped and free of control characters.
 *
 * @param file file it stands in, or {@code option} for a value given for one run
 * @param line 1-based line, 0 where there is none
 * @param column 1-based column, 0 where there is none
 * @param key the key as it is written in the file, for example {@code tracks[1].count}; empty for the file as a whole
 * @param value the value found, as written; empty where there is none
 * @param problem what is wrong
 * @param allowed what would be right, with its unit; may be empty
 * @param remedy what to do
 */
public record ProfileError(
        String file, int line, int column, String key, String value, String problem, String allowed, String remedy) {

    public ProfileError {
        file = Inert.escaped(file, 300);
        key = Inert.escaped(key, 80);
        value = Inert.escaped(value, 80);
        problem = Inert.escaped(problem, 400);
        allowed = Inert.escaped(allowed, 400);
        remedy = Inert.escaped(remedy, 400);
    }

    /** Where it stands: {@code band.toml:7}, or the file alone. */
    public String place() {
        return line > 0 ? file + ":" + line : file;
    }

    /** One line: {@code band.toml:7: writers = 0: too small; allowed: 1 to 64 writers; do: …}. */
    public String sentence() {
        return where() + ": " + told() + "; do: " + remedy;
    }

    /** Where it stands, with the key and its value: {@code band.toml:7: writers = 0}. */
    public String where() {
        return key.isEmpty() ? place() : place() + ": " + key + (value.isEmpty() ? "" : " = " + value);
    }

    /** What is wrong and what would be right: {@code too small; allowed: 1 to 64 writers}. */
    String told() {
        return allowed.isEmpty() ? problem : problem + "; allowed: " + allowed;
    }
}
