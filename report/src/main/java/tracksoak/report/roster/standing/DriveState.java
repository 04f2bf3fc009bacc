package tracksoak.report.roster.standing;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.report.roster.identity.DriveIdentity;

/**
 * All that the events of one drive come to. Computed by {@link DriveFold}; depends on no clock.
 *
 * @param id the drive
 * @param identity its hardware, null where no event knows it
 * @param tags the different tags that stand, in order; more than one is a conflict
 * @param withdrawals withdrawals that stand, in the order of their events
 * @param marks records that count, oldest first
 * @param records records entered, each once
 * @param unsigned of these, records whose signature gives no trust
 * @param doubtful of these, records whose own verdict was not taken
 * @param notes notes written
 * @param lastNote the latest note, empty without one
 * @param lastRun the latest record, null without one
 */
public record DriveState(
        String id,
        @Nullable DriveIdentity identity,
        List<String> tags,
        List<Claim> withdrawals,
        List<Mark> marks,
        int records,
        int unsigned,
        int doubtful,
        int notes,
        String lastNote,
        @Nullable LastRun lastRun) {

    public DriveState {
        tags = List.copyOf(tags);
        withdrawals = List.copyOf(withdrawals);
        marks = List.copyOf(marks);
    }

    /** When the latest run ended, in ms since 1970; 0 without one. */
    public long lastRecordMs() {
        return lastRun == null ? 0 : lastRun.endedAtMs();
    }

    /** The first tag, else the id: what a person calls the drive. */
    public String label() {
        return tags.isEmpty() ? id : tags.get(0);
    }
}
