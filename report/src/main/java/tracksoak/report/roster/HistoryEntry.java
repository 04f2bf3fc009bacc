package tracksoak.report.roster;

import org.jspecify.annotations.Nullable;
import tracksoak.report.record.sign.SignatureState;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.standing.RecordDigest;

/**
 * One line of a drive's history.
 *
 * @param event the event; its texts are people's and may hold anything, escape them
 * @param author what its author's signature is worth
 * @param digest what the record says, null for other events
 * @param record what the record's signature is worth, null for other events
 * @param lifted for tags, those of records too, and withdrawals: whether it was taken back
 * @param future whether it, or its record, is dated in the future
 */
public record HistoryEntry(
        RosterEvent event,
        SignatureState author,
        @Nullable RecordDigest digest,
        @Nullable SignatureState record,
        boolean lifted,
        boolean future) {

    /** The tag that was taken back of a record: the record itself is not taken back. Null for anything else. */
    public @Nullable String tagAloneLifted() {
        return lifted && event.record() != null ? event.tag() : null;
    }

    /** Whether it was said of this drive itself, and not of one whose records it follows. */
    public boolean isOf(String drive) {
        return drive.equals(event.drive());
    }
}
