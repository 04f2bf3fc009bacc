package tracksoak.report.roster.web.page.view;

import tracksoak.report.page.view.Shown;

/**
 * What a drive is worth for one session.
 *
 * @param state {@code trusted}, {@code cleared}, {@code due}, {@code failed}, {@code unproven} or {@code withdrawn}: the word, which picks the
 *     shape as well
 * @param session name of the session
 * @param when since or until when, empty where that means nothing
 * @param seen {@code 15 of 180 min seen} of a cleared drive, else empty
 * @param why one sentence, empty where the word says all
 */
public record StandingView(String state, Shown session, String when, String seen, Shown why) {}
