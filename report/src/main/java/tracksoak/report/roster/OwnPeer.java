package tracksoak.report.roster;

import java.util.List;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.exchange.RosterPeer;
import tracksoak.report.roster.store.SqlStore;

/** A roster of this process as another sees it. */
final class OwnPeer implements RosterPeer {

    /** Records of one answer, in bytes, compressed. */
    private static final long MOST_BYTES = 8L << 20;

    private final Roster roster;
    private final SqlStore store;

    OwnPeer(Roster roster, SqlStore store) {
        this.roster = roster;
        this.store = store;
    }

    @Override
    public List<String> refs(String after, int limit) {
        within("names", limit, MOST_REFS);
        return store.refs(after, limit);
    }

    @Override
    public List<Parcel> pull(List<String> refs) {
        within("events", refs.size(), MOST_PARCELS);
        return store.parcels(refs, MOST_BYTES);
    }

    @Override
    public List<String> setAside() {
        return store.setAside();
    }

    @Override
    public Receipt push(List<Parcel> parcels) {
        within("events", parcels.size(), MOST_PARCELS);
        return roster.take(parcels);
    }

    private static void within(String what, int asked, int most) {
        if (asked < 0 || asked > most) {
            throw Kind.ASKED_WRONG.problem(
                    "the exchange cannot go on", asked + " " + what + " at once", "ask for " + most + " at most");
        }
    }
}
