package tracksoak.bench.command.demo;

import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.JsonText;
import tracksoak.bench.command.console.ShellWord;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.bench.command.roster.RosterServing;
import tracksoak.bench.command.roster.RosterText;
import tracksoak.bench.command.roster.RosterTokensCommand;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RosterAccess;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.roster.Board;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.web.page.RosterSite;
import tracksoak.report.roster.web.server.RosterServer;
import tracksoak.report.roster.web.server.RosterSettings;
import tracksoak.report.roster.web.server.TokenFile;

/** The demo of a roster: fills one in a new folder, shows it, and serves its page. */
final class DemoRosterShow {

    private final Console console;
    private final Rooms rooms;
    private final StopSignal stop;

    DemoRosterShow(Console console, Rooms rooms, StopSignal stop) {
        this.console = console;
        this.rooms = rooms;
        this.stop = stop;
    }

    int show(DemoRosterOptions options, @Nullable Path out, boolean json) throws InterruptedException {
        Instant now = Instant.ofEpochMilli(SystemClocks.EPOCH.epochMillis());
        Path folder = (out == null ? rooms.recordsFolder().resolve("demo-roster-" + now.toEpochMilli()) : out)
                .toAbsolutePath()
                .normalize();
        Path file = folder.resolve(RosterPlace.FILE);
        if (Files.exists(file)) {
            throw Problem.askedWrong(
                    Inert.quoted(file) + " is there already; no roster is written over",
                    "name a new folder with --out");
        }
        console.say("a dozen drives of an invented touring theatre, tested on virtual time in the past months");
        List<RunRecord> records = new DemoRoster(now, options.seed, rooms.host()).fill(folder, console::say);
        try (Roster roster = Roster.open(RosterPlace.sqlite(file), RosterAccess.clock())) {
            BoardQuery query = BoardQuery.all(DemoSession.lanternWagon());
            Board board = roster.board(query);
            if (json) {
                Map<String, Object> document = JsonOption.document("demo-roster/1");
                document.put("roster", file.toString());
                document.put("runs", records.size());
                document.put("board", RosterText.json(board, query, roster.conflicts()));
                console.out().println(JsonText.of(document));
                return Exit.DONE;
            }
            RosterText.print(board, query, roster.conflicts(), " --roster " + ShellWord.of(file), console);
            console.out().println();
            console.out()
                    .println(Inert.whole("Look further:  tracksoak roster show W-07 --roster " + ShellWord.of(file)));
            return serve(roster, folder, options);
        }
    }

    /** To this computer alone, on any free port, so that it is in nobody's way; without tokens nobody can write. */
    private int serve(Roster roster, Path folder, DemoRosterOptions options) throws InterruptedException {
        try {
            RosterServer server = RosterSite.serve(
                    RosterSettings.loopback().withPort(0),
                    roster,
                    List.of(DemoSession.lanternWagon(), DemoSession.harvestFair()),
                    new TokenFile(folder.resolve(TokenFile.NAME)),
                    RosterAccess.clock(),
                    RosterServing.log(console, false));
            return RosterServing.untilStopped(server, stop, started -> tell(started, options), () -> {});
        } catch (Problem wrong) {
            throw RosterTokensCommand.complaint(wrong);
        }
    }

    /** A browser is opened only for a person who looks on. */
    private void tell(RosterServer server, DemoRosterOptions options) {
        console.out().println("Its page is at " + server.address() + "  (Ctrl-C ends it)");
        console.out().flush();
        boolean watched = console.outIsTerminal() || console.errIsTerminal();
        if (watched && !options.noBrowser && !rooms.opened(URI.create(server.address()))) {
            console.say("there is no desktop here to open it on: point a browser at it");
        }
    }
}
