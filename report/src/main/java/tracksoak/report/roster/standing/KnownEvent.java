package tracksoak.report.roster.standing;

import org.jspecify.annotations.Nullable;
import tracksoak.report.roster.event.RosterEvent;

/**
 * An event with what was found out about it once: the author's signature holds, or it would not have been taken.
 *
 * @param ref name of the event
 * @param event the event
 * @param digest what its record says, null for other kinds
 * @param recordHolds whether the record's own signature belongs to it
 */
public record KnownEvent(
        String ref, RosterEvent event, @Nullable RecordDigest digest, boolean recordHolds) {}
