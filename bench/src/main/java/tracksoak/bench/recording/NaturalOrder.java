package tracksoak.bench.recording;

import java.util.Comparator;

/** Names in the order people count in: 2 before 10. Stateless. */
final class NaturalOrder implements Comparator<String> {

    /** The order of paths. */
    static final Comparator<String> PATHS = new NaturalOrder().thenComparing(Comparator.naturalOrder());

    private NaturalOrder() {}

    @Override
    public int compare(String one, String other) {
        int i = 0;
        int j = 0;
        while (i < one.length() && j < other.length()) {
            if (digit(one, i) && digit(other, j)) {
                int from = zeros(one, i);
                int otherFrom = zeros(other, j);
                i = digits(one, from);
                j = digits(other, otherFrom);
                int order = i - from != j - otherFrom
                        ? Integer.compare(i - from, j - otherFrom)
                        : one.substring(from, i).compareTo(other.substring(otherFrom, j));
                if (order != 0) {
                    return order;
                }
            } else if (one.charAt(i) != other.charAt(j)) {
                return Character.compare(one.charAt(i), other.charAt(j));
            } else {
                i++;
                j++;
            }
        }
        return Integer.compare(one.length() - i, other.length() - j);
    }

    private static boolean digit(String text, int at) {
        return at < text.length() && text.charAt(at) >= '0' && text.charAt(at) <= '9';
    }

    /** Behind the zeros that lead there. */
    private static int zeros(String text, int from) {
        int at = from;
        while (at < text.length() && text.charAt(at) == '0') {
            at++;
        }
        return at;
    }

    private static int digits(String text, int from) {
        int at = from;
        while (digit(text, at)) {
            at++;
        }
        return at;
    }
}
