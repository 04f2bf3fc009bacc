package tracksoak.report.page.view;

import java.util.List;

/**
 * One section of the sheet, folded until it is asked for.
 *
 * @param id anchor, {@code [a-z-]+}
 * @param gist one line that says what is in it, read while it is folded; may be empty
 * @param figure the one figure of it that matters, with its unit; empty for none
 */
public record Section(String id, String title, Shown gist, Shown figure, List<Block> blocks) {

    public Section {
        blocks = List.copyOf(blocks);
    }

    /** A section that says with its title what is in it. */
    public Section(String id, String title, List<Block> blocks) {
        this(id, title, "", "", blocks);
    }

    /** A section with a line and a figure that may hold anything. */
    public Section(String id, String title, String gist, String figure, List<Block> blocks) {
        this(id, title, Shown.whole(gist), Shown.of(figure), blocks);
    }
}
