package tracksoak.report.roster.web.page.view;

import tracksoak.report.page.view.Shown;

/**
 * One record of a drive.
 *
 * @param href its report
 * @param when when the run began
 * @param state {@code pass}, {@code fail} or {@code none}: picks the shape
 * @param word the verdict in words
 * @param session session it was made for
 * @param plan its plan
 * @param floor lowest lasting write rate, with unit
 * @param backlog peak backlog, with unit
 * @param margin smallest margin
 * @param tester who made it
 * @param signature whether its signature holds, in words
 * @param sound whether it holds
 */
public record RunRow(
        String href,
        String when,
        String state,
        String word,
        Shown session,
        Shown plan,
        String floor,
        String backlog,
        String margin,
        Shown tester,
        String signature,
        boolean sound) {}
