package tracksoak.report.roster.web;

import java.nio.file.Path;
import java.time.InstantSource;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.web.page.RosterSite;
import tracksoak.report.roster.web.server.RosterServer;
import tracksoak.report.roster.web.server.RosterSettings;
import tracksoak.report.roster.web.server.ServerLog;
import tracksoak.report.roster.web.server.TokenFile;

/** Serves a roster until it is killed; says its address in its first line. Its clock begins when the crew's tests do. */
final class KilledServer {

    private KilledServer() {}

    public static void main(String[] args) {
        Path folder = Path.of(args[0]);
        long startNs = SystemClocks.NANO.nanoTime();
        InstantSource clock = () -> Shows.START.plusNanos(SystemClocks.NANO.nanoTime() - startNs);
        Roster roster = Roster.open(RosterPlace.sqlite(folder.resolve("roster.db")), clock);
        RosterServer server = RosterSite.serve(
                Served.foundByPhones(RosterSettings.loopback().withPort(0)),
                roster,
                SessionCatalog.shipped().all(),
                new TokenFile(folder.resolve(TokenFile.NAME)),
                clock,
                new ServerLog() {
                    @Override
                    public void request(String line) {}

                    @Override
                    public void failure(String line) {
                        System.err.println(line);
                    }
                });
        System.out.println("http://127.0.0.1:" + server.port() + "/");
    }
}
