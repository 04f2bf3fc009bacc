package tracksoak.report.record.facts;

import org.jspecify.annotations.Nullable;

/**
 * How a take began.
 *
 * @param idleBeforeS how long the drive was left alone before "record", in s
 * @param filesMs from "record" until every file was made, in ms; it counts as backlog
 * @param spaceGiven whether the file system gave files space in advance, null where the session asks for none
 */
public record StartFacts(
        double idleBeforeS, double filesMs, @Nullable Boolean spaceGiven) {}
