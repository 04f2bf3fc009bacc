package tracksoak.bench.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.job.RosterAccess;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterDesk;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.store.RosterPlace;

/** What a crew that buys drives is told, counted by hand. */
class ModelsTest {

    private static final Instant START = Shows.START;

    @TempDir
    Path folder;

    @Test
    void runsThatGiveTrustAndAllThatFailedCountWithTheDrivesBehindThem() {
        try (Roster roster = Roster.open(RosterPlace.sqlite(folder.resolve("roster.db")), RosterAccess.clock())) {
            Models models = new Models(roster);
            assertThat(models.all()).isEmpty();
            TesterKey key = TesterKey.create("Ada");
            RosterDesk desk = roster.desk(key);
            desk.enter(Shows.pass("A-1", START).signed(key), "A-1");
            desk.enter(Shows.pass("A-2", START).signed(key), "A-2");
            desk.enter(Shows.fail("A-2", START.plusSeconds(60)).signed(key), null);
            desk.enter(Shows.fullShow("A-3", START).signed(key), "A-3");
            desk.enter(Shows.lineCheck("A-4", START).signed(key), "A-4");
            desk.enter(Shows.fail("C-1", START).hardware("Coopers", "Cask").signed(key), "C-1");
            assertThat(models.all())
                    .extracting(line -> line.model().full() + ": " + line.passes() + ", " + line.drives() + ", "
                            + line.session().full())
                    .containsExactly(
                            "Coopers Cask, 240 GB: 0 of 1 run, 1 drive, barn-32",
                            "Makers of the Barn Stick <64>, 240 GB: 3 of 4 runs, 3 drives, barn-32");
        }
    }
}
