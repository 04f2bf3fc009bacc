package tracksoak.report.roster.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Objects;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.Postgres;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.Shows;

/** A PostgreSQL database that is not there, or does not let one write: said with what to do about it, and what can be read is read. */
class PostgresTroubleTest {

    @RegisterExtension
    static final Postgres POSTGRES = new Postgres();

    private final TesterKey ada = TesterKey.create("Ada");

    private static void sql(RosterPlace place, String... statements) throws SQLException {
        try (Connection connection =
                        DriverManager.getConnection(Objects.requireNonNull(place.url()), place.user(), "postgres");
                Statement statement = connection.createStatement()) {
            for (String one : statements) {
                statement.execute(one);
            }
        }
    }

    private static Problem problem(ThrowingCallable work) {
        Problem problem = catchThrowableOfType(Problem.class, work);
        assertThat(problem.kind()).isEqualTo(Problem.Kind.UNREACHABLE);
        assertThat(problem.getMessage()).contains("postgresql://localhost").doesNotContain("jdbc:", ".;");
        return problem;
    }

    private RosterPlace filled() {
        RosterPlace place = POSTGRES.young();
        try (Roster roster = Roster.open(place, () -> Shows.START)) {
            roster.desk(ada).enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014");
        }
        return place;
    }

    private void isReadAndNotWritten(RosterPlace place, String why, String todo) {
        try (Roster roster = Roster.open(place, () -> Shows.START)) {
            assertThat(roster.board(BoardQuery.all(null)).rows()).hasSize(1);
            assertThat(problem(() -> roster.desk(ada).note("S-014", "hums")).getMessage())
                    .contains(why, todo);
            assertThat(roster.events()).isEqualTo(2);
        }
    }

    @Test
    void aDatabaseForReadingOnlyIsReadAndNotWritten() throws SQLException {
        RosterPlace place = filled();
        String name = String.valueOf(place.url()).replaceFirst(".*/(\\w+).*", "$1");
        sql(place, "ALTER DATABASE " + name + " SET default_transaction_read_only = on");
        isReadAndNotWritten(place, "is for reading only", "have whoever runs it let you write");
    }

    @Test
    void anotherUsersTablesAreReadAndNotWritten() throws SQLException {
        RosterPlace place = filled();
        sql(place, "CREATE ROLE visitor LOGIN", "GRANT SELECT ON ALL TABLES IN SCHEMA public TO visitor");
        isReadAndNotWritten(
                new RosterPlace(
                        null, String.valueOf(place.url()).replaceAll("user=\\w+", "user=visitor"), "visitor", ""),
                "does not let this user: ERROR: permission denied",
                "give its tables to this user");
    }

    @Test
    void aDatabaseThatIsNotThereIsSaid() {
        RosterPlace place = POSTGRES.young();
        RosterPlace wrong = new RosterPlace(
                null,
                String.valueOf(place.url()).replaceFirst("/\\w+\\?", "/nowhere?"),
                place.user(),
                place.password());
        assertThat(problem(() -> Roster.open(wrong, () -> Shows.START)).getMessage())
                .contains("there is no database postgresql://localhost", "/nowhere", "must be made first");
    }

    @Test
    void aServerThatDoesNotAnswerIsSaid() {
        RosterPlace wrong = RosterPlace.postgres("postgresql://localhost:1/roster", "crew", "secret");
        assertThat(problem(() -> Roster.open(wrong, () -> Shows.START)).getMessage())
                .contains("localhost:1", "check that the database runs")
                .doesNotContain("secret");
    }
}
