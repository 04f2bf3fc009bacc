package tracksoak.report.roster.exchange;

import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.report.roster.event.RosterEvent;

/**
 * An event on its way from one roster to another, with the record it enters. Nothing about it is verified yet.
 *
 * @param event the event
 * @param gzip the record's canonical JSON, gzip; null where the event enters none
 */
@SuppressWarnings("ArrayRecordComponent") // bodies are large, handed on at once and never compared
public record Parcel(RosterEvent event, byte @Nullable [] gzip) {

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Parcel parcel && event.equals(parcel.event);
    }

    @Override
    public int hashCode() {
        return Objects.hashCode(event);
    }
}
