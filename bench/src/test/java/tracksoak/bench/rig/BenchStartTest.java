package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The bench's own process: there is one, and its key dies with it. */
class BenchStartTest {

    @TempDir
    Path host;

    private Program begun() {
        Program bench = Program.of(host, "bench", "--no-browser");
        assertThat(Host.await(60_000, () -> bench.output().contains("open?key=")))
                .as(bench.output())
                .isTrue();
        return bench;
    }

    private static String address(Program bench) {
        return bench.output().replaceAll("(?s).*(http\\S+).*", "$1");
    }

    private static int opened(String address) throws IOException, InterruptedException {
        return HttpClient.newHttpClient()
                .send(HttpRequest.newBuilder(URI.create(address)).build(), HttpResponse.BodyHandlers.ofString())
                .statusCode();
    }

    @Test
    void aSecondStartLeadsToTheFirstAndAKilledOneMakesRoom() throws IOException, InterruptedException {
        String first;
        try (Program bench = begun()) {
            first = address(bench);
            assertThat(opened(first)).isEqualTo(200);
            try (Program second = Program.of(host, "bench", "--no-browser")) {
                assertThat(second.await()).as(second.output()).isZero();
                assertThat(second.output()).contains("The bench runs already, at " + first);
            }
            bench.kill();
        }
        try (Program one = Program.of(host, "bench", "--no-browser");
                Program two = Program.of(host, "bench", "--no-browser")) {
            assertThat(Host.await(
                            60_000,
                            () -> one.output().contains("open?key=")
                                    && two.output().contains("open?key=")))
                    .as(one.output() + two.output())
                    .isTrue();
            // one of them serves, and the other names where that is, not where the killed one was
            assertThat(address(one)).isEqualTo(address(two)).isNotEqualTo(first);
            Program next = one.output().contains("The bench is at") ? one : two;
            String now = address(next);
            assertThat(opened(now)).isEqualTo(200);
            String oldKey = first.replaceFirst(".*key=", "");
            assertThat(opened(now.replaceFirst("key=.*", "key=" + oldKey))).isEqualTo(401);
            next.stop();
            assertThat(next.await()).as(next.output()).isEqualTo(130);
            assertThat(host.resolve("state/tracksoak/bench")).isDirectoryNotContaining("glob:**bench*");
        }
    }
}
