package tracksoak.report.roster.store;

import java.nio.file.Path;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.event.RosterEvent;

/** A process that enters records and says which are safe, until it is killed. */
final class KilledWriter {

    private KilledWriter() {}

    public static void main(String[] arguments) {
        TesterKey key = TesterKey.create("Ada");
        try (Roster roster = Roster.open(RosterPlace.sqlite(Path.of(arguments[0])), () -> Shows.START)) {
            for (int i = 0; i < 100_000; i++) {
                RosterEvent event = roster.desk(key)
                        .enter(Shows.pass("B4RN-" + i, Shows.START).signed(key), null);
                System.out.println(event.ref());
                System.out.flush();
            }
        }
    }
}
