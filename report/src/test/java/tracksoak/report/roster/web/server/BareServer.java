package tracksoak.report.roster.web.server;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;

/** A server of nothing but a test's own site, on a free port, and what it said had failed. */
final class BareServer implements AutoCloseable {

    final Queue<String> failures = new ConcurrentLinkedQueue<>();
    private final RosterServer server;

    BareServer(Site site, Path folder) {
        ServerLog log = new ServerLog() {
            @Override
            public void request(String line) {}

            @Override
            public void failure(String line) {
                failures.add(line);
            }
        };
        server = RosterServer.start(
                RosterSettings.loopback().withPort(0),
                site,
                new TokenFile(folder.resolve(TokenFile.NAME)),
                () -> Instant.EPOCH,
                log);
    }

    String address() {
        return server.address();
    }

    @Override
    public void close() {
        server.close();
    }
}
