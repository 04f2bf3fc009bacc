package tracksoak.bench.command;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.report.roster.Board;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterPlace;

/** The roster of the demo shows every standing, comes out the same each time, and is nobody's own. */
class DemoRosterTest {

    private static final Instant NOW = Instant.parse("2026-05-17T18:00:00Z");

    @TempDir
    Path folder;

    private List<String> story(String name, long seed) throws IOException {
        Path own = Files.createDirectory(folder.resolve(name));
        Rooms rooms = new TestRooms(own, List.of());
        List<String> said = new ArrayList<>();
        new DemoRoster(NOW, seed, rooms.host()).fill(own, said::add);
        try (Roster roster = Roster.open(RosterPlace.sqlite(own.resolve(RosterPlace.FILE)), () -> NOW)) {
            Board board = roster.board(BoardQuery.all(DemoSession.lanternWagon()));
            board.rows()
                    .forEach(row -> said.add(row.label() + " "
                            + row.standing().standing().word() + " "
                            + row.standing().validUntil() + " " + row.standing().why()));
        }
        return said;
    }

    @Test
    void theSameSeedTellsTheSameStory() throws IOException {
        assertThat(story("first", 20)).isEqualTo(story("again", 20));
    }

    @Test
    void everyStandingIsShownAndTheOwnRosterIsLeftAlone() throws IOException {
        Path host = Files.createDirectory(folder.resolve("host"));
        Rooms rooms = new TestRooms(host, List.of());
        Typed typed = Typed.run(rooms, "demo", "--roster", "--json");
        assertThat(typed.code()).as(typed.err()).isZero();
        JsonNode document = new ObjectMapper().readTree(typed.out());
        assertThat(document.get("schema").textValue()).isEqualTo("tracksoak/demo-roster/1");
        assertThat(document.at("/board/drives")).hasSize(12);
        document.at("/board/counts")
                .properties()
                .forEach(count -> assertThat(count.getValue().intValue())
                        .as(count.getKey())
                        .isPositive());
        assertThat(document.at("/board/conflicts")).hasSize(1);
        assertThat(Path.of(document.get("roster").textValue())).exists();
        assertThat(rooms.rosterFolder().resolve(RosterPlace.FILE)).doesNotExist();
        assertThat(rooms.rosterFolder().resolve("tester-key.json")).doesNotExist();
        String file = document.get("roster").textValue();
        Typed again = Typed.run(
                rooms, "demo", "--roster", "--out", file.substring(0, file.length() - RosterPlace.FILE.length()));
        assertThat(again.code()).isEqualTo(2);
    }
}
