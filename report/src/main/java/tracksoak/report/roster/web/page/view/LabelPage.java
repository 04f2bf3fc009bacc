package tracksoak.report.roster.web.page.view;

import java.util.List;

/**
 * Labels to print.
 *
 * @param size the size, as the style sheet knows it
 * @param sizes sizes to choose from
 * @param keep what the form keeps besides the size, as name and value
 * @param count how many labels in words
 * @param noCode why the labels bear no code, empty where they do
 */
public record LabelPage(
        Frame frame,
        String size,
        List<Option> sizes,
        List<Option> keep,
        String count,
        String noCode,
        List<Label> labels) {}
