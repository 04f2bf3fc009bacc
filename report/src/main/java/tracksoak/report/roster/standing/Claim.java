package tracksoak.report.roster.standing;

/**
 * Something a person said of a drive that stands until it is taken back by name: a tag given, or a withdrawal.
 *
 * @param ref name of the event
 * @param text the tag, or the reason
 * @param by who
 * @param atMs when, in ms since 1970
 */
public record Claim(String ref, String text, String by, long atMs) {}
