package tracksoak.report.roster;

import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.report.roster.store.RosterPlace;

/** Attacks on the roster of one laptop. */
class SqliteTruthTest extends TruthContract {

    @TempDir
    Path folder = Path.of("");

    private int places;

    @Override
    RosterPlace place() {
        return RosterPlace.sqlite(folder.resolve("data-" + places++).resolve(RosterPlace.FILE));
    }

    @Override
    RosterPlace young() {
        return YoungRoster.at(folder.resolve("young-" + places++ + ".db"));
    }
}
