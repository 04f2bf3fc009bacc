package tracksoak.bench.command;

/** Words from outside, made safe to show. */
final class Words {

    private static final int LONGEST = 200;

    private Words() {}

    /** The text without anything a terminal could obey, on one line. */
    static String plain(String text) {
        StringBuilder plain = new StringBuilder();
        text.codePoints().forEach(c -> plain.appendCodePoint(harmless(c) ? c : '?'));
        return plain.toString();
    }

    /** The text in quotes, cut if it is long. */
    static String quoted(String text) {
        String cut = text.codePointCount(0, text.length()) <= LONGEST
                ? text
                : text.substring(0, text.offsetByCodePoints(0, LONGEST)) + "…";
        return '"' + cut + '"';
    }

    private static boolean harmless(int c) {
        return switch (Character.getType(c)) {
            case Character.CONTROL,
                    Character.FORMAT,
                    Character.SURROGATE,
                    Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR,
                    Character.UNASSIGNED -> false;
            default -> true;
        };
    }
}
