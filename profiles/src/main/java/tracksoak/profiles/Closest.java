package tracksoak.profiles;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;

/** Finds the word a person most likely meant. Stateless. */
public final class Closest {
    private static final int LONGEST_WORD = 80;

    private static final int SHORTEST_BEGINNING = 3;

    private Closest() {}

    /**
     * The known word nearest to the one given: one that begins like it, or that a slip of the fingers turns into it.
     *
     * @return empty if none is near, or the word is blank or longer than 80 characters
     */
    public static Optional<String> to(String word, Collection<String> known) {
        if (word.isBlank() || word.length() > LONGEST_WORD) {
            return Optional.empty();
        }
        String wanted = word.toLowerCase(Locale.ROOT);
        String best = null;
        int least = Math.max(2, word.length() / 3) + 1;
        for (String candidate : known) {
            String lower = candidate.toLowerCase(Locale.ROOT);
            boolean begun = wanted.length() >= SHORTEST_BEGINNING && lower.startsWith(wanted);
            int distance = begun ? 1 : distance(wanted, lower);
            if (distance < least) {
                least = distance;
                best = candidate;
            }
        }
        return Optional.ofNullable(best);
    }

    /** The same as the end of a sentence, {@code ; did you mean WORD?}; empty if none is near. */
    public static String hint(String word, Collection<String> known) {
        return to(word, known).map(meant -> "; did you mean " + meant + "?").orElse("");
    }

    /** Levenshtein distance: insertions, deletions and replacements that turn one word into the other. */
    static int distance(String from, String to) {
        int[] row = new int[to.length() + 1];
        for (int j = 0; j <= to.length(); j++) {
            row[j] = j;
        }
        for (int i = 1; i <= from.length(); i++) {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= to.length(); j++) {
                int replaced = diagonal + (from.charAt(i - 1) == to.charAt(j - 1) ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.min(replaced, Math.min(row[j], row[j - 1]) + 1);
            }
        }
        return row[to.length()];
    }
}
