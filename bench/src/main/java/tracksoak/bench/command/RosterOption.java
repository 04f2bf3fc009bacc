package tracksoak.bench.command;

import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tracksoak.bench.recorder.SystemClocks;
import tracksoak.report.record.TesterKey;
import tracksoak.report.record.TesterKeys;
import tracksoak.report.record.TesterName;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterPlace;

/** Which roster it is. Nothing of a database is loaded before one is opened. */
final class RosterOption {

    /** Environment variables: user and password of a PostgreSQL roster, so that they need not stand in a command line. */
    static final String USER = "TRACKSOAK_ROSTER_USER";

    static final String PASSWORD = "TRACKSOAK_ROSTER_PASSWORD";

    @Option(
            names = "--roster",
            paramLabel = "FILE|URL",
            description = "The roster: an SQLite file, or postgresql://HOST/DATABASE (user and password from " + USER
                    + " and " + PASSWORD + "). Without it: your own, made on first use.")
    @Nullable
    String place;

    /**
     * Opens it.
     *
     * @throws tracksoak.report.roster.RosterException if it cannot be opened
     */
    Roster open(Rooms rooms, Console console) {
        InstantSource clock = () -> Instant.ofEpochMilli(SystemClocks.EPOCH.epochMillis());
        return Roster.open(place(rooms, console), clock);
    }

    /** The tester's key of this computer, made on first use. */
    static TesterKey key(Rooms rooms) {
        return TesterKeys.openOrCreate(rooms.rosterFolder(), TesterName.orTester(rooms.testerName()));
    }

    private RosterPlace place(Rooms rooms, Console console) {
        String asked = place;
        if (asked == null) {
            return RosterPlace.sqlite(rooms.rosterFolder().resolve(RosterPlace.FILE));
        }
        if (asked.startsWith("jdbc:postgresql:") || asked.startsWith("postgresql:") || asked.startsWith("postgres:")) {
            return RosterPlace.postgres(
                    asked,
                    console.environment().get(USER),
                    console.environment().get(PASSWORD));
        }
        String file = asked.startsWith("jdbc:sqlite:") ? asked.substring("jdbc:sqlite:".length()) : asked;
        if (file.isBlank() || file.contains("://") || file.startsWith("jdbc:")) {
            throw Complaint.usage(
                    "--roster is " + Words.quoted(asked) + ", which is neither a file nor a PostgreSQL address",
                    "give an SQLite file or postgresql://HOST/DATABASE");
        }
        return RosterPlace.sqlite(Path.of(file));
    }
}
