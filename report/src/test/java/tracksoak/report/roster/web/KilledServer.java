package tracksoak.report.roster.web;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.web.page.RosterSite;
import tracksoak.report.roster.web.server.RosterServer;
import tracksoak.report.roster.web.server.RosterSettings;
import tracksoak.report.roster.web.server.ServerLog;
import tracksoak.report.roster.web.server.TokenFile;

/** Serves a roster until it is killed; says its port in its first line. */
final class KilledServer {

    private KilledServer() {}

    public static void main(String[] args) {
        Path folder = Path.of(args[0]);
        Instant now = Shows.START;
        Roster roster = Roster.open(RosterPlace.sqlite(folder.resolve("roster.db")), () -> now);
        RosterServer server = RosterSite.serve(
                RosterSettings.loopback().withPort(0),
                roster,
                List.of(),
                new TokenFile(folder.resolve(TokenFile.NAME)),
                () -> now,
                new ServerLog() {
                    @Override
                    public void request(String line) {}

                    @Override
                    public void failure(String line) {
                        System.err.println(line);
                    }
                });
        System.out.println(server.address());
    }
}
