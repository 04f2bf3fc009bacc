package tracksoak.report.page.bench;

import tracksoak.report.page.view.Shown;

/**
 * A run among others.
 *
 * @param href its own page
 * @param drive the drive's tag, or its maker and model
 * @param what session and plan
 * @param state {@code pass}, {@code fail}, {@code none} or {@code going}: picks the shape
 * @param word the same in words
 * @param about one sentence: the verdict, how far it is, or what went wrong
 * @param label where its label is printed, empty if it has none
 * @param report where its report is, empty while there is none
 */
public record RunLine(
        String href, Shown drive, Shown what, String state, String word, Shown about, String label, String report) {}
