package tracksoak.bench.page;

import static org.assertj.core.api.Assertions.assertThat;

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
import tracksoak.profiles.RandomSessions;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.SessionReader;
import tracksoak.report.page.bench.SessionView;

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
