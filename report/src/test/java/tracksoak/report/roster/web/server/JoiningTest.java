package tracksoak.report.roster.web.server;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A page that joins those that wait for news. */
class JoiningTest {

    private static final String POLLING = "polling";

    @TempDir
    Path folder;

    /**
     * One page waits already. While a second is being told how far all is, that changes, and the server's own look finds it and tells all
     * that wait: the second must be among them.
     */
    @Test
    @Timeout(value = 60, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
    void whatChangesWhileItJoinsIsToldToo() throws Exception {
        AtomicReference<String> far = new AtomicReference<>("1");
        AtomicReference<String> joining = new AtomicReference<>("");
        CountDownLatch twice = new CountDownLatch(2);
        Site site = new Site(
                List.of(),
                () -> {
                    String now = far.get();
                    if (looks()) {
                        if (POLLING.equals(joining.get())) {
                            twice.countDown();
                        }
                    } else if ("second".equals(joining.get())) {
                        far.set("2");
                        joining.set(POLLING);
                        // by the look after the one that finds it, it was told
                        await(twice);
                    }
                    return now;
                },
                refusal -> "",
                refusal -> "",
                Site.Ways.TYPED_TOKEN);
        try (BareServer server = new BareServer(site, folder);
                Stream<String> first = news(server)) {
            assertThat(first.filter(line -> line.equals("data: 1")).findFirst()).isPresent();
            try (Stream<String> second = joined(server, joining)) {
                assertThat(second.filter(line -> line.startsWith("data: "))
                                .takeWhile(line -> !line.equals("data: 2"))
                                .toList())
                        .containsExactly("data: 1");
            }
            assertThat(server.failures).isEmpty();
        }
    }

    /** Whether it is the server that looks by itself, and no page that joins. */
    private static boolean looks() {
        return StackWalker.getInstance()
                .walk(calls -> calls.anyMatch(call -> call.getClassName().equals(ChangePoll.class.getName())));
    }

    private static Stream<String> joined(BareServer server, AtomicReference<String> joining) throws Exception {
        joining.set("second");
        return news(server);
    }

    private static Stream<String> news(BareServer server) throws Exception {
        return HttpClient.newHttpClient()
                .send(
                        HttpRequest.newBuilder(URI.create(server.address() + "live"))
                                .build(),
                        HttpResponse.BodyHandlers.ofLines())
                .body();
    }

    private static void await(CountDownLatch latch) {
        try {
            assertThat(latch.await(30, TimeUnit.SECONDS)).isTrue();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
