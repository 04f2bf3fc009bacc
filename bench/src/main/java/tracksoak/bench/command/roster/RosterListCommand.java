package tracksoak.bench.command.roster;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.RosterOption;
import tracksoak.bench.command.session.SessionChoice;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.Closest;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.Board;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.Conflict;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterCsv;
import tracksoak.report.roster.standing.Standing;

/** The table itself. */
@Command(
        name = "list",
        header = "List the drives and their standing.",
        description = {
            "Standing is computed from the records: trusted (the whole length at its pace and its bytes are proven),"
                    + " cleared (a sound-check passed), due (test again), failed, unproven; or withdrawn by a person."
                    + " Without a session each drive is shown for that of its latest record."
        },
        sortOptions = false)
public final class RosterListCommand extends OneRosterCommand {

    @Option(
            names = "--tonight",
            paramLabel = "SESSION",
            description =
                    "What can be taken tonight for this session, nothing about its tag to settle: trusted first, then"
                            + " cleared.")
    @Nullable
    String tonight;

    @Mixin
    SessionChoice choice = new SessionChoice();

    @Option(
            names = "--standing",
            paramLabel = "WORD",
            split = ",",
            description = "Only these, separated by commas: trusted, cleared, due, failed, unproven, withdrawn.")
    @Nullable
    List<String> standings;

    @Option(
            names = "--tag",
            paramLabel = "TEXT",
            description = "Only drives with this text in tag, id, maker, model, serial or latest note.")
    @Nullable
    String text;

    @Option(names = "--csv", description = "Print comma-separated values (RFC 4180) instead of text.")
    boolean csv;

    public RosterListCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    public Integer call() {
        if (csv && json.asked) {
            throw Problem.askedWrong("--csv and --json exclude each other", "give one of them");
        }
        BoardQuery query = query();
        try (Roster roster = rosterOption.openThere(rooms, console)) {
            Board board = roster.board(query);
            List<Conflict> conflicts = roster.conflicts();
            RosterOption.tellSetAside(roster, console);
            if (csv) {
                RosterCsv.write(board, console.out());
            } else if (json.asked) {
                print(RosterText.json(board, query, conflicts));
            } else {
                RosterText.print(board, query, conflicts, rosterOption.typed(), console);
            }
        } catch (IOException impossible) {
            throw new UncheckedIOException(impossible);
        }
        return Exit.DONE;
    }

    private BoardQuery query() {
        String asked = tonight;
        if (asked != null && (choice.given() || standings != null)) {
            throw Problem.askedWrong(
                    "--tonight names the session and asks for trusted and cleared drives already",
                    "leave out --session, --session-file and --standing, or --tonight");
        }
        BoardQuery query;
        if (asked != null) {
            query = BoardQuery.tonight(SessionCatalog.find(rooms.sessionsFolder(), asked));
        } else {
            Session session = choice.given() ? choice.resolve(rooms) : null;
            query = BoardQuery.all(session).only(wanted(standings));
        }
        String letters = text;
        return letters == null ? query : query.with(letters.strip());
    }

    private static Set<Standing> wanted(@Nullable List<String> words) {
        Set<Standing> wanted = EnumSet.noneOf(Standing.class);
        for (String word : words == null ? List.<String>of() : words) {
            wanted.add(List.of(Standing.values()).stream()
                    .filter(standing -> standing.word().equals(word.strip()))
                    .findFirst()
                    .orElseThrow(() -> Problem.askedWrong(
                            "--standing is " + Inert.quoted(word)
                                    + Closest.hint(
                                            word.strip(),
                                            List.of(Standing.values()).stream()
                                                    .map(Standing::word)
                                                    .toList())
                                    + "; allowed: trusted, cleared, due, failed, unproven, withdrawn",
                            "give one or more of them, separated by commas")));
        }
        return wanted;
    }
}
