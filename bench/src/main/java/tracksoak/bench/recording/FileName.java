package tracksoak.bench.recording;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * The name of a file as numbers and what stands between them.
 *
 * @param text what stands between them, {@code #} for each number, in small letters
 * @param numbers in their order; of more than nine digits only the last nine
 */
record FileName(String text, List<Integer> numbers) {

    private static final int MOST_DIGITS = 9;

    static FileName of(String stem) {
        StringBuilder text = new StringBuilder();
        List<Integer> numbers = new ArrayList<>();
        int at = 0;
        while (at < stem.length()) {
            int end = at;
            while (end < stem.length() && stem.charAt(end) >= '0' && stem.charAt(end) <= '9') {
                end++;
            }
            if (end > at) {
                numbers.add(Integer.parseInt(stem.substring(Math.max(at, end - MOST_DIGITS), end)));
                text.append('#');
                at = end;
            } else {
                text.append(stem.charAt(at++));
            }
        }
        return new FileName(text.toString().toLowerCase(Locale.ROOT), List.copyOf(numbers));
    }

    /** The name of a track: the stem without its number at that place, and without what joined it. */
    static String without(String stem, int place) {
        int number = -1;
        int at = 0;
        while (at < stem.length()) {
            int end = at;
            while (end < stem.length() && stem.charAt(end) >= '0' && stem.charAt(end) <= '9') {
                end++;
            }
            if (end > at && ++number == place) {
                String left = (stem.substring(0, at) + stem.substring(end)).replaceAll("^[ _.-]+|[ _.-]+$", "");
                return left.isEmpty() ? stem : left;
            }
            at = Math.max(end, at + 1);
        }
        return stem;
    }
}
