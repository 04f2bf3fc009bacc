package tracksoak.bench.command.demo;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.bench.command.main.CommandLines;
import tracksoak.bench.command.main.OwnBrowser;
import tracksoak.bench.job.Rooms;
import tracksoak.report.roster.Board;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.store.RosterPlace;

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

    @Test
    void itsPageOpensInTheBrowserAndIsServedUntilCtrlC() {
        TestRooms rooms = new TestRooms(folder, List.of());
        CtrlC ctrlC = new CtrlC();
        List<String> pages = new ArrayList<>();
        rooms.browser = page -> {
            pages.add(read(page));
            ctrlC.press();
            return true;
        };
        Typed typed = served(rooms, ctrlC, true, said -> {});
        assertThat(typed.code()).as(typed.err()).isEqualTo(130);
        assertThat(pages).singleElement().asString().contains("12 drives", "W-07", "lantern-wagon-16");
        assertThat(typed.out()).contains("Its page is at http://127.0.0.1:");
    }

    /** A computer without a desktop, and one that was told not to: the address is said, and it is served all the same. */
    @ParameterizedTest
    @CsvSource({"false, ''", "true, ''", "true, --no-browser"})
    void withoutABrowserTheAddressIsSaidAndThePageServed(boolean terminal, String option) {
        TestRooms rooms = new TestRooms(folder, List.of());
        CtrlC ctrlC = new CtrlC();
        List<String> pages = new ArrayList<>();
        Typed typed = served(
                rooms,
                ctrlC,
                terminal,
                said -> {
                    Matcher address =
                            Pattern.compile("http://127\\.0\\.0\\.1:[0-9]+/").matcher(said);
                    if (pages.isEmpty() && address.find()) {
                        pages.add(read(URI.create(address.group())));
                        ctrlC.press();
                    }
                },
                option.isEmpty() ? new String[0] : new String[] {option});
        assertThat(typed.code()).as(typed.err()).isEqualTo(130);
        assertThat(pages).singleElement().asString().contains("12 drives");
        assertThat(typed.err().contains("no desktop")).isEqualTo(terminal && option.isEmpty());
    }

    /** A real system is told in its own way, and one without a desktop is not told at all. */
    @Test
    void everySystemHasItsWayToOpenAPage() {
        URI page = URI.create("http://127.0.0.1:8432/");
        assertThat(OwnBrowser.words("Linux", Map.of(), page)).isEmpty();
        assertThat(OwnBrowser.words("Linux", Map.of("DISPLAY", ""), page)).isEmpty();
        for (String screen : List.of("DISPLAY", "WAYLAND_DISPLAY")) {
            assertThat(OwnBrowser.words("Linux", Map.of(screen, "0"), page))
                    .containsExactly("xdg-open", page.toString());
        }
        assertThat(OwnBrowser.words("Mac OS X", Map.of(), page)).containsExactly("open", page.toString());
        assertThat(OwnBrowser.words("Windows 11", Map.of(), page))
                .containsExactly("rundll32", "url.dll,FileProtocolHandler", page.toString());
    }

    private static Typed served(TestRooms rooms, CtrlC ctrlC, boolean terminal, Consumer<String> said, String... more) {
        StringWriter out = new StringWriter() {
            @Override
            public void flush() {
                said.accept(toString());
            }
        };
        StringWriter err = new StringWriter();
        Console console = new Console(new PrintWriter(out), new PrintWriter(err), terminal, terminal, Map.of());
        List<String> args = new ArrayList<>(List.of("demo", "--roster"));
        args.addAll(List.of(more));
        int code = CommandLines.of(console, rooms, ctrlC, args).execute(args.toArray(String[]::new));
        console.out().flush();
        console.err().flush();
        return new Typed(code, out.toString(), err.toString());
    }

    private static String read(URI page) {
        try (InputStream in = page.toURL().openStream()) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Somebody who presses Ctrl-C when the test says so. */
    private static final class CtrlC implements StopSignal {

        private Runnable cancel = () -> {};
        private boolean pressed;

        void press() {
            pressed = true;
            cancel.run();
        }

        @Override
        public Watch onStop(Runnable toCancel) {
            cancel = toCancel;
            return new Watch() {
                @Override
                public boolean stopped() {
                    return pressed;
                }

                @Override
                public void close() {}
            };
        }

        @Override
        public void doNotWait() {}
    }
}
