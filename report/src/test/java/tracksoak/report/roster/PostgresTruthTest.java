package tracksoak.report.roster;

import org.junit.jupiter.api.extension.RegisterExtension;
import tracksoak.report.roster.store.RosterPlace;

/** Attacks on the roster of a crew. */
class PostgresTruthTest extends TruthContract {

    @RegisterExtension
    static final Postgres POSTGRES = new Postgres();

    @Override
    RosterPlace place() {
        return POSTGRES.place();
    }

    @Override
    RosterPlace young() {
        return POSTGRES.young();
    }
}
