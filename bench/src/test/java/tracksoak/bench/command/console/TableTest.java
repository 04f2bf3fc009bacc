package tracksoak.bench.command.console;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.Map;
import org.junit.jupiter.api.Test;

class TableTest {

    private static String printed(boolean terminal, String columns) {
        Table table = new Table("DRIVE", "MAKER AND MODEL", ">SIZE", "STANDING", "");
        table.row("W-01", "Barley & Sons Wagon 128", "256 GB", "cleared", "");
        table.row("W-2", "Lantern 64", "64 GB", "due", "tag to settle");
        StringWriter out = new StringWriter();
        PrintWriter writer = new PrintWriter(out, true);
        table.print(new Console(writer, writer, terminal, terminal, Map.of("COLUMNS", columns)));
        writer.flush();
        return out.toString().replace("\r\n", "\n");
    }

    @Test
    void whatFitsOrIsReadByAProgramStandsOnOneLine() {
        String line = """
                DRIVE  MAKER AND MODEL            SIZE  STANDING
                W-01   Barley & Sons Wagon 128  256 GB  cleared
                W-2    Lantern 64                64 GB  due       tag to settle
                """;
        assertThat(printed(true, "80")).isEqualTo(line);
        assertThat(printed(false, "40")).isEqualTo(line);
    }

    /** Whole columns, so that no cell is cut and a narrow window cuts no line. */
    @Test
    void columnsThatDoNotFitStandBelow() {
        assertThat(printed(true, "60")).isEqualTo("""
                DRIVE  MAKER AND MODEL            SIZE  STANDING
                W-01   Barley & Sons Wagon 128  256 GB  cleared
                W-2    Lantern 64                64 GB  due
                    tag to settle
                """);
        assertThat(printed(true, "40").lines())
                .allSatisfy(line -> assertThat(line).hasSizeLessThanOrEqualTo(40));
        assertThat(printed(true, "40")).isEqualTo("""
                DRIVE  MAKER AND MODEL            SIZE
                    STANDING
                W-01   Barley & Sons Wagon 128  256 GB
                    cleared
                W-2    Lantern 64                64 GB
                    due       tag to settle
                """);
    }
}
