package tracksoak.report.roster;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.SessionStanding;

/**
 * One drive of a list.
 *
 * @param drive the drive; what came from hardware or people in it may hold anything, escape it
 * @param standing its standing
 * @param session name of the session the standing is for, empty where the drive has no record and none was asked for
 * @param carried the session of the PASS that makes it trusted, cleared or due, null otherwise
 * @param future whether its last run is dated in the future of this computer's clock
 * @param conflicts what about its tags must be settled
 */
public record BoardRow(
        DriveState drive,
        SessionStanding standing,
        String session,
        @Nullable Session carried,
        boolean future,
        List<Conflict> conflicts) {

    public BoardRow {
        conflicts = List.copyOf(conflicts);
    }

    /** What the drive is called: its tag, or its id without one. */
    public String label() {
        return drive.label();
    }

    /** Maker and model, harmless to look at. */
    public String title() {
        return title(drive);
    }

    static String title(DriveState drive) {
        return drive.identity() == null ? "unknown drive" : drive.identity().title();
    }

    /** Tracks of the session it was proven with, null where it was not. */
    public @Nullable Integer tracksCarried() {
        return carried == null ? null : carried.tracks();
    }

    /** Demand of the session it was proven with in bytes per second, null where it was not. */
    public @Nullable Long bytesPerSecondCarried() {
        return carried == null ? null : carried.bytesPerSecond();
    }
}
