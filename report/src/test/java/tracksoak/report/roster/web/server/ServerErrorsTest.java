package tracksoak.report.roster.web.server;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** An error inside the server is logged and answered, and the server goes on. */
public class ServerErrorsTest {

    @TempDir
    Path folder;

    private static int deep(int depth) {
        return depth < 0 ? 0 : deep(depth + 1) + 1;
    }

    private static HttpAnswer exhausted() {
        throw new OutOfMemoryError("a test's");
    }

    @Test
    void anErrorIsAnsweredAndTheServerLives() throws Exception {
        Site site = new Site(
                List.of(
                        Route.get("/memory", Route.Access.ANYBODY, (exchange, path, body) -> exhausted()),
                        Route.post("/memory", Route.Access.ANYBODY, 100, (exchange, path, body) -> exhausted()),
                        Route.get(
                                "/stack",
                                Route.Access.ANYBODY,
                                (exchange, path, body) -> HttpAnswer.html("" + deep(0))),
                        Route.get("/fine", Route.Access.ANYBODY, (exchange, path, body) -> HttpAnswer.html("fine"))),
                () -> "1",
                refusal -> "",
                refusal -> "",
                Site.Ways.TYPED_TOKEN);
        BareServer server = new BareServer(site, folder);
        try (server) {
            for (int i = 0; i < 20; i++) {
                assertThat(status(server, "memory", false)).isEqualTo(500);
                assertThat(status(server, "memory", true)).isEqualTo(500);
                assertThat(status(server, "stack", false)).isEqualTo(500);
            }
            assertThat(status(server, "fine", false)).isEqualTo(200);
        }
        assertThat(server.failures).hasSize(60).anyMatch(line -> line.contains("OutOfMemoryError"));
    }

    private static int status(BareServer server, String path, boolean post) throws IOException, InterruptedException {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(server.address() + path));
        return HttpClient.newHttpClient()
                .send(
                        (post ? request.POST(HttpRequest.BodyPublishers.ofString("x")) : request.GET()).build(),
                        HttpResponse.BodyHandlers.ofString())
                .statusCode();
    }
}
