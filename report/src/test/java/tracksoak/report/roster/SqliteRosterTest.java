package tracksoak.report.roster;

import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.report.roster.store.RosterPlace;

/** The roster on one laptop. */
class SqliteRosterTest extends RosterContract {

    @TempDir
    Path folder = Path.of("");

    @Override
    RosterPlace place() {
        return RosterPlace.sqlite(folder.resolve("data").resolve(RosterPlace.FILE));
    }
}
