package tracksoak.bench.recording;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The name of a file as numbers and what stands between them. A single letter at its end counts as well, 1 for A.
 *
 * @param text what stands between them, {@code #} for each number and {@code @} for the letter, in small letters
 * @param numbers in their order; of more than nine digits only the last nine
 */
record FileName(String text, List<Integer> numbers) {

    private static final Pattern NUMBER = Pattern.compile("[0-9]+|(?<=[0-9 _.(-])[A-Za-z](?=\\)?$)");
    private static final Pattern LAST = Pattern.compile("^(.*?)[ _.(-]*(?:" + NUMBER.pattern() + ")\\)?$");
    private static final int MOST_DIGITS = 9;

    static FileName of(String stem) {
        StringBuilder text = new StringBuilder();
        List<Integer> numbers = new ArrayList<>();
        Matcher found = NUMBER.matcher(stem);
        while (found.find()) {
            String number = found.group();
            boolean letter = Character.isLetter(number.charAt(0));
            numbers.add(
                    letter
                            ? Character.toLowerCase(number.charAt(0)) - 'a' + 1
                            : Integer.parseInt(number.substring(Math.max(0, number.length() - MOST_DIGITS))));
            found.appendReplacement(text, letter ? "@" : "#");
        }
        found.appendTail(text);
        return new FileName(text.toString().toLowerCase(Locale.ROOT), List.copyOf(numbers));
    }

    /** The name that one without the last number has as the first of its series. */
    FileName before() {
        List<Integer> earlier = new ArrayList<>(numbers);
        earlier.set(earlier.size() - 1, earlier.get(earlier.size() - 1) - 1);
        return new FileName(text, List.copyOf(earlier));
    }

    /** Whether both are written alike and differ, if at all, in the number at that place only. */
    boolean isBeside(FileName other, int place) {
        if (!text.equals(other.text) || numbers.size() != other.numbers.size() || place >= numbers.size()) {
            return false;
        }
        for (int i = 0; i < numbers.size(); i++) {
            if (i != place && !numbers.get(i).equals(other.numbers.get(i))) {
                return false;
            }
        }
        return true;
    }

    /** Whether the number at that place is a letter. */
    boolean letter(int place) {
        return place == numbers.size() - 1 && text.contains("@");
    }

    /** What stands before the last number, where that ends the stem; else empty. */
    static String series(String stem) {
        Matcher last = LAST.matcher(stem);
        return last.matches() ? last.group(1) : "";
    }

    /** The name of a track: the stem without its number at that place, and without what joined it. */
    static String without(String stem, int place) {
        Matcher found = NUMBER.matcher(stem);
        for (int number = 0; found.find(); number++) {
            if (number == place) {
                String left = (stem.substring(0, found.start()) + stem.substring(found.end()))
                        .replaceAll("\\(\\)|^[ _.-]+|[ _.-]+$", "")
                        .strip();
                return left.isEmpty() ? stem : left;
            }
        }
        return stem;
    }
}
