package tracksoak.report.page.view;

import java.util.List;

/**
 * One section of the sheet.
 *
 * @param id anchor, {@code [a-z-]+}
 */
public record Section(String id, String title, List<Block> blocks) {

    public Section {
        blocks = List.copyOf(blocks);
    }
}
