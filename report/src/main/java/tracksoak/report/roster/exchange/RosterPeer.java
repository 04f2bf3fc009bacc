package tracksoak.report.roster.exchange;

import java.util.List;

/**
 * Another roster, near or far. Every call may be repeated and interrupted without harm.
 *
 * <p>Each throws {@link tracksoak.profiles.base.Problem} of kind UNREACHABLE where the other side does not answer.
 */
public interface RosterPeer {

    /** Most names asked for at once. */
    int MOST_REFS = 5_000;

    /** Most events handed over at once. */
    int MOST_PARCELS = 200;

    /**
     * Names of events in ascending order.
     *
     * @param after the name before the first wanted, empty to begin
     * @param limit most names wanted, 1 to {@value #MOST_REFS}; fewer than that come only at the end
     */
    List<String> refs(String after, int limit);

    /**
     * Fetches events, with their records, in any order; those it does not have, or that cannot be read, are left out.
     *
     * @param refs names, at most {@value #MOST_PARCELS}; fewer events than asked may come where they are large, at least one
     */
    List<Parcel> pull(List<String> refs);

    /** Names of its events that are not as they were signed, as far as it tells: they are in no list of names, and mended by whole ones. */
    default List<String> setAside() {
        return List.of();
    }

    /**
     * Hands events over.
     *
     * @param parcels at most {@value #MOST_PARCELS}
     */
    Receipt push(List<Parcel> parcels);
}
