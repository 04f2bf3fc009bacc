package tracksoak.bench.command;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.recorder.SystemClocks;
import tracksoak.report.record.RunRecord;
import tracksoak.report.roster.Board;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterPlace;

/** The demo of a roster: fills one in a new folder, and shows it. */
final class DemoRosterShow {

    private final Console console;
    private final Rooms rooms;

    DemoRosterShow(Console console, Rooms rooms) {
        this.console = console;
        this.rooms = rooms;
    }

    int show(DemoRosterOptions options, @Nullable Path out, boolean json) {
        Instant now = Instant.ofEpochMilli(SystemClocks.EPOCH.epochMillis());
        Path folder = (out == null ? rooms.recordsFolder().resolve("demo-roster-" + now.toEpochMilli()) : out)
                .toAbsolutePath()
                .normalize();
        Path file = folder.resolve(RosterPlace.FILE);
        if (Files.exists(file)) {
            throw Complaint.usage(
                    Words.quoted(file) + " is there already; no roster is written over",
                    "name a new folder with --out");
        }
        console.say("a dozen drives of an invented touring theatre, tested on virtual time in the past months");
        List<RunRecord> records = new DemoRoster(now, options.seed, rooms.host()).fill(folder, console::say);
        try (Roster roster = Roster.open(RosterPlace.sqlite(file), RosterOption.clock())) {
            BoardQuery query = BoardQuery.all(DemoSession.lanternWagon());
            Board board = roster.board(query);
            if (json) {
                Map<String, Object> document = JsonOption.document("demo-roster/1");
                document.put("roster", file.toString());
                document.put("runs", records.size());
                document.put("board", RosterText.json(board, query, roster.conflicts()));
                console.out().println(JsonText.of(document));
            } else {
                RosterText.print(board, query, roster.conflicts(), console);
                console.out().println();
                console.out().println(Words.plain("Look further:  tracksoak roster show W-07 --roster " + file));
            }
        }
        return Exit.DONE;
    }
}
