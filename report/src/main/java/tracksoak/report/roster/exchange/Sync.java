package tracksoak.report.roster.exchange;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;

/**
 * Makes two rosters equal: walks the names of both in order, fetches what is missing here and hands over what is missing there. Every step is
 * whole in itself and may be repeated, so a sync may be interrupted anywhere, done in any order among any rosters, and done again.
 */
public final class Sync {

    private static final int PAGE = 2_000;

    /** Largest number of parcels on the way at once, and so of records in memory. */
    private static final int BATCH = 50;

    private static final String NOT_GIVEN =
            "the other roster names it, and does not give it in a form that can be read";
    private static final String DAMAGED_HERE = "it is damaged here, and the other roster has no whole one";
    private static final String CHANGED_HERE = "it was changed here since it was signed, and stays here";

    private final RosterPeer here;
    private final RosterPeer there;
    private final Progress progress;
    private final boolean bothWays;
    private final List<String> toFetch = new ArrayList<>();
    private final List<String> toHandOver = new ArrayList<>();
    private Receipt fetched = Receipt.NONE;
    private Receipt handedOver = Receipt.NONE;

    /** Told of every batch; by the thread that syncs. */
    @FunctionalInterface
    public interface Progress {

        /** So many events fetched and handed over by now. */
        void now(int fetched, int handedOver);
    }

    /**
     * What came of a sync.
     *
     * @param fetched what was taken from there
     * @param handedOver what they took from here
     */
    public record Result(Receipt fetched, Receipt handedOver) {

        /** Whether both sides have the same now: nothing was refused, here or there. */
        public boolean same() {
            return fetched.refused().isEmpty() && handedOver.refused().isEmpty();
        }
    }

    private Sync(RosterPeer here, RosterPeer there, Progress progress, boolean bothWays) {
        this.here = here;
        this.there = there;
        this.progress = progress;
        this.bothWays = bothWays;
    }

    /**
     * Exchanges both ways.
     *
     * @throws Problem if one side stops answering; what was exchanged by then stays
     */
    public static Result run(RosterPeer here, RosterPeer there, Progress progress) {
        Sync sync = new Sync(here, there, progress, true);
        sync.walk();
        return new Result(sync.fetched, sync.handedOver);
    }

    /**
     * Hands over what is missing there, and takes nothing.
     *
     * @throws Problem if one side stops answering; what was handed over by then stays there
     */
    public static Receipt handOver(RosterPeer here, RosterPeer there, Progress progress) {
        Sync sync = new Sync(here, there, progress, false);
        sync.walk();
        return sync.handedOver;
    }

    private void walk() {
        RefCursor ours = new RefCursor(here, PAGE);
        RefCursor theirs = new RefCursor(there, PAGE);
        while (ours.current() != null || theirs.current() != null) {
            int order = RefCursor.compare(ours.current(), theirs.current());
            if (order < 0) {
                toHandOver.add(ours.take());
            } else if (order > 0) {
                String only = theirs.take();
                if (bothWays) {
                    toFetch.add(only);
                }
            } else {
                ours.take();
                theirs.take();
            }
            if (toFetch.size() >= BATCH) {
                fetch();
            }
            if (toHandOver.size() >= BATCH) {
                handOver();
            }
        }
        fetch();
        handOver();
        for (String name : here.setAside()) {
            fetched = fetched.refusing(name, DAMAGED_HERE);
        }
    }

    private void fetch() {
        while (!toFetch.isEmpty()) {
            List<Parcel> got = move(there, toFetch, false);
            fetched = got.isEmpty() ? fetched.refusing(toFetch.remove(0), NOT_GIVEN) : fetched.and(here.push(got));
            progress.now(fetched.taken(), handedOver.taken());
        }
    }

    private void handOver() {
        while (!toHandOver.isEmpty()) {
            List<Parcel> got = move(here, toHandOver, true);
            handedOver = got.isEmpty()
                    ? handedOver.refusing(toHandOver.remove(0), CHANGED_HERE)
                    : handedOver.and(there.push(got));
            progress.now(fetched.taken(), handedOver.taken());
        }
    }

    /**
     * Pulls some of the events wanted and strikes those that came off the list. Where none of them comes, the first is asked for by itself,
     * so that one that cannot be read keeps no other back.
     *
     * @param own whether it is this roster: one of its events that somebody changed has another name now, and stays here
     */
    private static List<Parcel> move(RosterPeer from, List<String> wanted, boolean own) {
        List<Parcel> got = pull(from, wanted, own);
        if (got.isEmpty() && wanted.size() > 1) {
            got = pull(from, wanted.subList(0, 1), own);
        }
        wanted.removeAll(got.stream().map(parcel -> parcel.event().ref()).toList());
        return got;
    }

    private static List<Parcel> pull(RosterPeer from, List<String> wanted, boolean own) {
        Set<String> asked = new HashSet<>(wanted);
        List<Parcel> got = from.pull(List.copyOf(wanted)).stream()
                .filter(parcel -> !own || asked.contains(parcel.event().ref()))
                .toList();
        Set<String> came = new HashSet<>();
        for (Parcel parcel : got) {
            String ref = parcel.event().ref();
            if (!asked.contains(ref) || !came.add(ref)) {
                throw Kind.REFUSED.problem(
                        "the sync cannot go on",
                        "the other roster sent an event that was not asked for",
                        "check its address, and that it is a Tracksoak roster");
            }
        }
        return got;
    }
}
