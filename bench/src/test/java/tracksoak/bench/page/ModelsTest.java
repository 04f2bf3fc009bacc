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
            desk.enter(Shows.pass("B4RN-0001", START).signed(key), "A-1");
            desk.enter(Shows.pass("B4RN-0002", START).signed(key), "A-2");
            desk.enter(Shows.fail("B4RN-0002", START.plusSeconds(60)).signed(key), null);
            desk.enter(Shows.fullShow("B4RN-0003", START).signed(key), "A-3");
            desk.enter(Shows.lineCheck("B4RN-0004", START).signed(key), "A-4");
            desk.enter(
                    Shows.fail("C4SK-0001", START).hardware("Coopers", "Cask").signed(key), "C-1");
            desk.enter(
                    Shows.pass("S1MU-0001", START)
                            .hardware("simulated", "steady-ssd")
                            .signed(key),
                    null);
            // drives whose serial tells nothing, without a tag: they may be one or two
            desk.enter(
                    Shows.pass("0", START.plusSeconds(1))
                            .hardware("Reeds", "Reel")
                            .signed(key),
                    null);
            desk.enter(
                    Shows.pass("0", START.plusSeconds(2))
                            .hardware("Reeds", "Reel")
                            .signed(key),
                    null);
            assertThat(models.all())
                    .extracting(line -> line.model().full() + ": " + line.passes() + ", " + line.drives() + ", "
                            + line.session().full())
                    .containsExactly(
                            "Coopers Cask, 256 GB: 0 of 1 run, 1 drive, barn-32",
                            "Makers of the Barn Stick <64>, 256 GB: 3 of 4 runs, 3 drives, barn-32",
                            "Reeds Reel, 256 GB: 2 of 2 runs, 2 runs of drives that nobody can tell apart, barn-32");
        }
    }
}
