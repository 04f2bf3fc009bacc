package tracksoak.report.roster.standing;

import java.time.Instant;

/**
 * How long something stays as it is while no event comes in and only time passes.
 *
 * @param from the first moment
 * @param until the last moment
 */
public record TimeSpan(Instant from, Instant until) {

    public static final TimeSpan ALWAYS = new TimeSpan(Instant.MIN, Instant.MAX);

    /** The time before a moment, or that from it on, whichever {@code now} lies in. */
    public static TimeSpan beside(Instant moment, Instant now) {
        return now.isBefore(moment)
                ? new TimeSpan(Instant.MIN, moment.minusNanos(1))
                : new TimeSpan(moment, Instant.MAX);
    }

    /** Whether a moment lies in it. */
    public boolean holds(Instant now) {
        return !now.isBefore(from) && !now.isAfter(until);
    }

    /** While both hold. */
    public TimeSpan and(TimeSpan other) {
        return new TimeSpan(
                from.isAfter(other.from) ? from : other.from, until.isBefore(other.until) ? until : other.until);
    }

    /** Gathers moments, in ms since 1970, at which something changes; the span is what lies between them around now. */
    static final class Changes {
        private final long floorMs;
        private final long ceilingMs;
        private long fromMs = Long.MIN_VALUE;
        private long afterMs = Long.MIN_VALUE;
        private long beforeMs = Long.MAX_VALUE;
        private long untilMs = Long.MAX_VALUE;

        Changes(Instant now) {
            this.floorMs = now.toEpochMilli();
            this.ceilingMs = floorMs + (now.equals(Instant.ofEpochMilli(floorMs)) ? 0 : 1);
        }

        /** It is another thing from this moment on. */
        void from(long ms) {
            if (ms <= floorMs) {
                fromMs = Math.max(fromMs, ms);
            } else {
                beforeMs = Math.min(beforeMs, ms);
            }
        }

        /** It is another thing after this moment. */
        void after(long ms) {
            if (ms < ceilingMs) {
                afterMs = Math.max(afterMs, ms);
            } else {
                untilMs = Math.min(untilMs, ms);
            }
        }

        /** While none of them comes. */
        TimeSpan none() {
            Instant from = fromMs == Long.MIN_VALUE ? Instant.MIN : Instant.ofEpochMilli(fromMs);
            Instant until = untilMs == Long.MAX_VALUE ? Instant.MAX : Instant.ofEpochMilli(untilMs);
            if (afterMs != Long.MIN_VALUE && afterMs >= fromMs) {
                from = Instant.ofEpochMilli(afterMs).plusNanos(1);
            }
            if (beforeMs != Long.MAX_VALUE && beforeMs <= untilMs) {
                until = Instant.ofEpochMilli(beforeMs).minusNanos(1);
            }
            return new TimeSpan(from, until);
        }
    }
}
