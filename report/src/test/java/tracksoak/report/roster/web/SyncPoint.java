package tracksoak.report.roster.web;

import java.net.URI;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.InstantSource;
import java.util.List;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.exchange.RemoteRoster;
import tracksoak.report.roster.exchange.RosterPeer;
import tracksoak.report.roster.web.page.RosterSite;
import tracksoak.report.roster.web.server.CrewToken;
import tracksoak.report.roster.web.server.RosterServer;
import tracksoak.report.roster.web.server.RosterSettings;
import tracksoak.report.roster.web.server.ServerLog;
import tracksoak.report.roster.web.server.TokenFile;

/** A roster of a test behind a real server, and the way to it. */
public final class SyncPoint implements AutoCloseable {

    private final RosterServer server;
    private final String token;

    public SyncPoint(Roster roster, Path folder, InstantSource clock) {
        TokenFile tokens = new TokenFile(folder.resolve(TokenFile.NAME));
        CrewToken.Fresh fresh = CrewToken.make("the others", clock.instant().toString(), "", new SecureRandom());
        tokens.keep(fresh.kept());
        token = fresh.text();
        server = RosterSite.serve(
                RosterSettings.loopback().withPort(0), roster, List.of(), tokens, clock, new ServerLog() {
                    @Override
                    public void request(String line) {}

                    @Override
                    public void failure(String line) {
                        throw new IllegalStateException(line);
                    }
                });
    }

    public String address() {
        return server.address();
    }

    public String token() {
        return token;
    }

    public RosterPeer client() {
        return new RemoteRoster(URI.create(server.address()), token, null);
    }

    @Override
    public void close() {
        server.close();
    }
}
