package tracksoak.bench.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.profiles.ProfileException;
import tracksoak.profiles.RandomSessions;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.SessionReader;
import tracksoak.report.page.bench.SessionView;
import tracksoak.report.roster.web.server.Form;

class SessionFormTest {

    private static final long SEED = 20_261_129L;
    private static final int MADE = 12;

    @TempDir
    Path folder;

    /** What a form leaves out is changed in silence: everything of a session has to be in it. */
    @Test
    void aSessionSavedAgainFromTheFormIsTheSameInEverything() throws IOException {
        TestRooms rooms = new TestRooms(folder, List.of());
        RandomSessions made = new RandomSessions(SEED);
        List<Session> sessions = Stream.concat(
                        SessionCatalog.shipped().all().stream(),
                        Stream.generate(made::next).limit(MADE))
                .toList();
        try (ServedBench bench = new ServedBench(folder, rooms)) {
            bench.enter();
            String secret = bench.secret();
            for (Session session : sessions) {
                Map<String, String> form = form(session);
                form.put("secret", secret);
                form.put("name", "mine");
                form.put("from", "mine");
                HttpResponse<String> answer = bench.post("/bench/sessions", form, "Origin", bench.origin());
                assertThat(answer.statusCode())
                        .as(session
                                + answer.body()
                                        .replaceFirst("(?s).*Nothing was saved", "")
                                        .replaceFirst("(?s)</ul>.*", ""))
                        .isEqualTo(303);
                Path file = rooms.sessionsFolder().resolve("mine.toml");
                assertThat(SessionReader.read(Files.readString(file), "mine.toml"))
                        .as("seed %d", SEED)
                        .isEqualTo(session.but().name("mine").build());
            }
        }
    }

    /** Of a session whose longest stall is what follows from its buffer, a longer buffer allows a longer one. */
    @Test
    void whatFollowsFromTheBufferFollowsFromTheOneFilledIn() {
        Map<String, String> filled = form(SessionCatalog.shipped().find("trio-8"));
        filled.put("name", "ours-8");
        filled.put("buffer_s", "8");
        Session made = SessionReader.read(SessionForm.toml(new Form(filled)), "form");
        Session asked = SessionCatalog.shipped()
                .find("trio-8")
                .but()
                .name("ours-8")
                .bufferS(8)
                .build();
        assertThat(made).isEqualTo(asked);
        assertThat(made.margins().longestStallMs()).isGreaterThan(4_000);
    }

    /** Nobody who fills in a form has written a file. */
    @Test
    void whatIsWrongIsSaidInWordsOfTheForm() {
        Map<String, String> filled = form(SessionCatalog.shipped().find("trio-8"));
        filled.put("name", "\"trio\"");
        filled.put("buffer_s", "0");
        filled.put("tracks0-rate", "");
        filled.put("margins-rate", "fast");
        filled.put("file_systems", "exFAT, BeFS");
        ProfileException wrong = catchThrowableOfType(
                ProfileException.class, () -> SessionReader.read(SessionForm.toml(new Form(filled)), "form"));
        List<String> said = wrong.errors().stream().map(SessionForm::sentence).toList();
        assertThat(said)
                .noneMatch(line -> line.contains("_") || line.contains("quotes") || line.contains("\""))
                .anyMatch(line -> line.startsWith("Recorder's buffer: 0: "))
                .anyMatch(line -> line.startsWith("Sample rate (tracks, line 1): is missing"))
                .anyMatch(line -> line.startsWith("Margin: rate ÷ demand: fast: "))
                .anyMatch(line -> line.startsWith("File systems the recorder accepts: ") && line.contains("befs"))
                .noneMatch(line -> line.contains("exFAT: "));
    }

    @Test
    void anotherSessionOfOnesOwnIsNotWrittenOver() throws IOException {
        TestRooms rooms = new TestRooms(folder, List.of());
        try (ServedBench bench = new ServedBench(folder, rooms)) {
            bench.enter();
            Map<String, String> form = form(SessionCatalog.shipped().find("trio-8"));
            form.put("secret", bench.secret());
            form.put("name", "mine");
            form.put("from", "trio-8");
            assertThat(bench.post("/bench/sessions", form, "Origin", bench.origin())
                            .statusCode())
                    .isEqualTo(303);
            HttpResponse<String> again = bench.post("/bench/sessions", form, "Origin", bench.origin());
            assertThat(again.statusCode()).isEqualTo(422);
            assertThat(again.body()).contains("already");
        }
    }

    private static Map<String, String> form(Session session) {
        Map<String, String> form = new LinkedHashMap<>();
        SessionForm.fields(session).forEach(field -> put(form, field));
        for (SessionView.Group group : SessionForm.groups(session)) {
            put(form, group.count());
            put(form, group.rate());
            put(form, group.word());
        }
        return form;
    }

    private static void put(Map<String, String> form, SessionView.Field field) {
        form.put(field.name(), field.value().full());
    }
}
