package tracksoak.report.page.view;

/** One paragraph. */
public record Prose(Shown text) implements Block {

    /** A paragraph of text that may hold anything. */
    public static Prose of(String text) {
        return new Prose(Shown.whole(text));
    }
}
