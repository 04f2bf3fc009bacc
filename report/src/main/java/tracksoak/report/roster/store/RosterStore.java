package tracksoak.report.roster.store;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.report.roster.event.RecordRef;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.KeyBook;
import tracksoak.report.roster.standing.KnownEvent;
import tracksoak.report.roster.standing.SessionTerms;

/**
 * Keeps events, and what follows from them. Any thread. Every method throws {@link tracksoak.report.roster.RosterException} of
 * kind BUSY, CORRUPT, FULL or UNREACHABLE.
 */
public interface RosterStore extends AutoCloseable {

    /**
     * Keeps events, all or none; what follows from them changes in the same transaction. When this returns they are on the
     * disk.
     *
     * @return how many were new
     */
    int append(Collection<Intake.Checked> events);

    /** Number of the last change; grows by at least one with each. */
    long version();

    /** States of the drives that changed after a version, 0 for all. */
    List<DriveState> drivesSince(long version);

    /** The testers' keys. */
    KeyBook keys();

    /** The terms of all sessions that records were made for. */
    List<SessionTerms> sessions();

    /** All events of a drive, in order of name. */
    List<KnownEvent> eventsOf(String drive);

    /** All events about keys, in order of name. */
    List<KnownEvent> keyEvents();

    /** One event. */
    Optional<KnownEvent> event(String ref);

    /** A record and its signature as the first event entered it. */
    Optional<RecordRef> recordRef(String sha256);

    /** A record as it was kept, compressed. */
    byte @Nullable [] body(String sha256);

    /** Names of events after one, in order. */
    List<String> refs(String after, int limit);

    /** Which of these names are not there. */
    List<String> missing(Collection<String> refs);

    /**
     * Events with their records; those not there are left out.
     *
     * @param mostBytes stop before the records grow larger than this in all, but give at least one
     */
    List<Parcel> parcels(List<String> refs, long mostBytes);

    /** Number of events. */
    long count();

    /** Works out anew what follows from the events, from the records themselves. */
    void rebuild();

    @Override
    void close();
}
