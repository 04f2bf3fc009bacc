package tracksoak.report.roster;

import java.time.Instant;
import tracksoak.report.roster.standing.Mark;
import tracksoak.report.roster.standing.Question;

/**
 * How long something stays as it is while no event comes in and only time passes.
 *
 * @param from the first moment
 * @param until the last moment
 */
record TimeSpan(Instant from, Instant until) {

    static final TimeSpan ALWAYS = new TimeSpan(Instant.MIN, Instant.MAX);

    boolean holds(Instant now) {
        return !now.isBefore(from) && !now.isAfter(until);
    }

    /** While both hold. */
    TimeSpan and(TimeSpan other) {
        return new TimeSpan(
                from.isAfter(other.from) ? from : other.from, until.isBefore(other.until) ? until : other.until);
    }

    /** How long a row stays as it is now: until its PASS falls due, and between two records' coming of age. */
    static TimeSpan of(BoardRow row, Instant now) {
        Instant from = Instant.MIN;
        Instant until = Instant.MAX;
        Instant valid = row.standing().validUntil();
        if (valid != null && now.isAfter(valid)) {
            from = valid.plusNanos(1);
        } else if (valid != null) {
            until = valid;
        }
        for (Mark mark : row.drive().marks()) {
            Instant ofAge = Instant.ofEpochMilli(mark.atMs()).minus(Question.CLOCKS_DIFFER);
            if (!ofAge.isAfter(now)) {
                from = ofAge.isAfter(from) ? ofAge : from;
            } else if (!ofAge.isAfter(until)) {
                until = ofAge.minusNanos(1);
            }
        }
        return new TimeSpan(from, until);
    }
}
