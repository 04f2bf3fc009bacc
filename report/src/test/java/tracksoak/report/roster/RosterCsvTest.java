package tracksoak.report.roster;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.postgresql.PGConnection;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.store.RosterPlace;

/** Lists as CSV, against RFC 4180 and the CSV reader of PostgreSQL. */
class RosterCsvTest {

    /** RFC 4180 §2, rules 1, 5, 6 and 7: the fields of its examples, each as the rules ask. */
    @Test
    void theExamplesOfTheRfcAreWrittenByItsRules() {
        assertThat(RosterCsv.line(List.of("aaa", "bbb", "ccc"))).isEqualTo("aaa,bbb,ccc\r\n");
        assertThat(RosterCsv.line(List.of("aaa", "b\r\nbb", "ccc"))).isEqualTo("aaa,\"b\r\nbb\",ccc\r\n");
        assertThat(RosterCsv.line(List.of("aaa", "b\"bb", "ccc"))).isEqualTo("aaa,\"b\"\"bb\",ccc\r\n");
        assertThat(RosterCsv.line(List.of("a,a", "", " c "))).isEqualTo("\"a,a\",,\" c \"\r\n");
    }

    @ParameterizedTest
    @ValueSource(strings = {"=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =cmd|' /C calc'!A0", "\uFF1D1"})
    void noFieldBeginsAFormula(String text) {
        assertThat(RosterCsv.line(List.of(text))).containsPattern("^\"?'");
    }

    @Test
    void anotherReaderGetsTheSameFields() throws SQLException, IOException {
        List<List<String>> rows = List.of(
                List.of("plain", "with, comma", "with \"quotes\""),
                List.of("line\r\nend", "", "Grüße; ünd 日本"),
                List.of("\\N", "\\.", "a'b"));
        StringBuilder csv = new StringBuilder();
        rows.forEach(row -> csv.append(RosterCsv.line(row)));
        try (Postgres postgres = new Postgres();
                Connection connection = postgres.server().getPostgresDatabase().getConnection();
                Statement statement = connection.createStatement()) {
            statement.execute("CREATE TEMP TABLE t (n SERIAL, a TEXT, b TEXT, c TEXT)");
            connection
                    .unwrap(PGConnection.class)
                    .getCopyAPI()
                    .copyIn(
                            "COPY t (a, b, c) FROM STDIN WITH (FORMAT csv, NULL '\u0001')",
                            new StringReader(csv.toString()));
            List<List<String>> read = new ArrayList<>();
            try (ResultSet result = statement.executeQuery("SELECT a, b, c FROM t ORDER BY n")) {
                while (result.next()) {
                    read.add(List.of(result.getString(1), result.getString(2), result.getString(3)));
                }
            }
            assertThat(read).isEqualTo(rows);
        }
    }

    @Test
    void aListIsOneLinePerDriveUnderItsHead(@TempDir Path folder) throws IOException {
        TesterKey ada = TesterKey.create("Ada");
        StringBuilder csv = new StringBuilder();
        try (Roster roster = Roster.open(RosterPlace.sqlite(folder.resolve("r.db")), () -> Shows.START)) {
            roster.desk(ada).enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014");
            roster.desk(ada).note("S-014", "=HYPERLINK(\"evil\")\nsecond, line");
            RosterCsv.write(roster.board(BoardQuery.all(null)), csv);
        }
        List<String> lines = csv.toString().lines().toList();
        assertThat(lines).hasSize(2);
        assertThat(lines.get(0)).startsWith("tag,drive,maker_and_model,serial,size_bytes,session,standing");
        assertThat(lines.get(1))
                .startsWith("S-014,d-")
                .contains(",cleared,2026-02-14T18:00:00Z,2026-05-15T18:00:00Z,")
                .endsWith(",\"'=HYPERLINK(\"\"evil\"\")[U+000A]second, line\",15.00,84147200000,165.00,0");
    }
}
