package tracksoak.bench.job;

import java.time.Instant;
import java.time.InstantSource;
import java.util.function.LongConsumer;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.record.sign.TesterKeys;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.store.RosterPlace;

/** How this computer takes part in a roster. Nothing of a database is loaded before one is opened. */
public final class RosterAccess {

    private RosterAccess() {}

    /** Opens one. */
    public static Roster open(RosterPlace place) {
        return open(place, events -> {});
    }

    /** Opens one, and says how many events are looked over anew before that is begun, once after an update. */
    public static Roster open(RosterPlace place, LongConsumer working) {
        return Roster.open(place, clock(), working);
    }

    /** Decides what is due, and dates what is entered. */
    public static InstantSource clock() {
        return () -> Instant.ofEpochMilli(SystemClocks.EPOCH.epochMillis());
    }

    /** The tester's key of this computer, made on first use. */
    public static TesterKey key(Rooms rooms) {
        return TesterKeys.openOrCreate(rooms.rosterFolder(), rooms.testerName());
    }
}
