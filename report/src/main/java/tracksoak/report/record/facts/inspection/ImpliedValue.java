package tracksoak.report.record.facts.inspection;

/**
 * A value of the session that a recording implies.
 *
 * @param key as session files have it
 * @param value in words with its unit
 * @param told whether the recording shows it; else it is a guess
 * @param evidence what shows it, or why it cannot be told
 */
public record ImpliedValue(String key, String value, boolean told, String evidence) {}
