package tracksoak.report.roster;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.store.SqlStore;

/** Attacks on the roster of one laptop. */
class SqliteTruthTest extends TruthContract {

    @TempDir
    Path folder = Path.of("");

    @TempDir
    static Path once = Path.of("");

    private int places;

    @BeforeAll
    static void make() {
        SqlStore.open(RosterPlace.sqlite(once.resolve(RosterPlace.FILE))).close();
    }

    @Override
    RosterPlace place() {
        return RosterPlace.sqlite(folder.resolve("data-" + places++).resolve(RosterPlace.FILE));
    }

    @Override
    RosterPlace young() {
        Path copy = folder.resolve("young-" + places++ + ".db");
        try {
            Files.copy(once.resolve(RosterPlace.FILE), copy);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return RosterPlace.sqlite(copy);
    }
}
