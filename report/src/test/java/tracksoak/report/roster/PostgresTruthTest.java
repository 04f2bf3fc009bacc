package tracksoak.report.roster;

import java.io.IOException;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import tracksoak.report.roster.store.RosterPlace;

/** Attacks on the roster of a crew. */
class PostgresTruthTest extends TruthContract {

    @SuppressWarnings("NullAway.Init") // before the first test
    private static Postgres postgres;

    @BeforeAll
    static void start() {
        postgres = Postgres.start();
    }

    @AfterAll
    static void stop() throws IOException {
        postgres.close();
    }

    @Override
    RosterPlace place() {
        return postgres.place();
    }
}
