package tracksoak.bench.command.console;

import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.Option;
import picocli.CommandLine.TypeConversionException;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RosterAccess;
import tracksoak.bench.phase.timeleft.AboutTime;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.store.RosterPlace;

/** Which roster it is. Nothing of a database is loaded before one is opened. */
public final class RosterOption {

    /** Environment variables: user and password of a PostgreSQL roster, so that they need not stand in a command line. */
    static final String USER = "TRACKSOAK_ROSTER_USER";

    static final String PASSWORD = "TRACKSOAK_ROSTER_PASSWORD";

    /** Environment variable: the crew's roster, for those who do not want to type it each time. */
    public static final String PLACE = "TRACKSOAK_ROSTER";

    private static final int MOST_NAMED = 20;
    /** Fewer are looked over before anybody wonders. */
    private static final long MANY = 1000;
    /** About 10 ms a record, of which most events have one (docs/roster.md). */
    private static final long EVENTS_PER_SECOND = 100;

    private static final Pattern SECRET =
            Pattern.compile("//[^/?]*@|[?&][^=&]*(password|user)=", Pattern.CASE_INSENSITIVE);

    @Option(
            names = "--roster",
            order = HelpOption.OF_MOST,
            paramLabel = "FILE|URL",
            description = "The roster: an SQLite file, or postgresql://HOST/DATABASE. User and password come from "
                    + USER + " and " + PASSWORD + ". Without it: that of " + PLACE
                    + ", else your own, made on first use.",
            converter = Named.class)
    @Nullable
    public String place;

    /** An empty name, as a variable that is not set leaves it, must not mean your own roster: what was meant for another would be written to it. */
    static final class Named implements ITypeConverter<String> {
        @Override
        public String convert(String typed) {
            if (typed.isBlank()) {
                throw new TypeConversionException(
                        "it is empty. Name a file or postgresql://HOST/DATABASE, or leave the option out");
            }
            return typed;
        }
    }

    /**
     * Opens it.
     *
     * @throws tracksoak.profiles.base.Problem if it cannot be opened
     */
    public Roster open(Rooms rooms, Console console) {
        return RosterAccess.open(place(rooms, console), events -> {
            if (events >= MANY) {
                console.say("the roster is of an earlier version: looking over its "
                        + Count.number(events) + " events anew, once; this takes "
                        + AboutTime.of((double) events / EVENTS_PER_SECOND));
            }
        });
    }

    /**
     * Opens one that must be there: your own alone is made where it is not.
     *
     * @throws Problem if a file was named that is not there, or it cannot be opened
     */
    public Roster openThere(Rooms rooms, Console console) {
        RosterPlace there = place(rooms, console);
        if (!there.isThere() && !there.equals(own(rooms))) {
            throw Problem.askedWrong(
                    "there is no roster at " + Inert.quoted(there),
                    "see whether its name is right; roster import, and a run with --roster, make a new one");
        }
        return open(rooms, console);
    }

    /** The roster as it was named in the command line, so that a command for it can be typed as it stands; empty where it was not. */
    public String typed() {
        return place == null ? "" : " --roster " + ShellWord.of(place);
    }

    /** Says which events were set aside because they are not as they were signed. */
    public static void tellSetAside(Roster roster, Console console) {
        List<String> aside = roster.setAside();
        if (!aside.isEmpty()) {
            console.complain(
                    Count.inDigits(aside.size(), "event") + " set aside, not as signed: "
                            + Inert.whole(String.join(
                                    ", ", aside.stream().limit(MOST_NAMED).toList()))
                            + (aside.size() > MOST_NAMED ? " …" : ""),
                    "sync with a roster that has it whole, or import its export; roster rescue looks all of it over");
        }
    }

    /** Where it is kept; nothing is opened or made. */
    public RosterPlace place(Rooms rooms, Console console) {
        String asked = place == null ? console.environment().get(PLACE) : place;
        return asked == null || (place == null && asked.isBlank())
                ? own(rooms)
                : place(place == null ? PLACE : "--roster", asked, console);
    }

    private static RosterPlace own(Rooms rooms) {
        return RosterPlace.sqlite(rooms.rosterFolder().resolve(RosterPlace.FILE));
    }

    /**
     * What was typed as a place.
     *
     * @param name the option or parameter, for complaints
     */
    public static RosterPlace place(String name, String asked, Console console) {
        if (asked.startsWith("jdbc:postgresql:") || asked.startsWith("postgresql:") || asked.startsWith("postgres:")) {
            if (SECRET.matcher(asked).find()) {
                throw Problem.askedWrong(
                        name + " holds a user or a password, and others on this computer can read command lines",
                        "leave them out of the address, and put them into " + USER + " and " + PASSWORD);
            }
            return RosterPlace.postgres(
                    asked,
                    console.environment().get(USER),
                    console.environment().get(PASSWORD));
        }
        String file = asked.startsWith("jdbc:sqlite:") ? asked.substring("jdbc:sqlite:".length()) : asked;
        if (file.isBlank() || file.contains("://") || file.startsWith("jdbc:")) {
            String shown = file.contains("@") || file.contains("?") ? "an address" : Inert.quoted(asked);
            throw Problem.askedWrong(
                    name + " is " + shown + ", which is neither a file nor a PostgreSQL address",
                    "give an SQLite file or postgresql://HOST/DATABASE");
        }
        return RosterPlace.sqlite(Path.of(file));
    }
}
