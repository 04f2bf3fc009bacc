package tracksoak.bench.command.main;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.command.console.Console;

class QuickHelpTest {

    @TempDir
    Path folder;

    /** If it differs: {@code tracksoak help} prints what the text should be. */
    @Test
    void theTextKeptReadyIsWhatTheCommandsSay() {
        StringWriter out = new StringWriter();
        PrintWriter writer = new PrintWriter(out);
        assertThat(QuickHelp.print(new Console(writer, writer, false, false, Map.of())))
                .isZero();
        writer.flush();
        Typed full = Typed.run(new TestRooms(folder, List.of()), "--help");
        assertThat(out.toString().lines())
                .containsExactlyElementsOf(full.out().lines().toList());
    }

    @Test
    void onlyHelpAloneIsQuick() {
        assertThat(QuickHelp.asked(new String[] {"--help"})).isTrue();
        assertThat(QuickHelp.asked(new String[] {"-h"})).isTrue();
        assertThat(QuickHelp.asked(new String[] {})).isFalse();
        assertThat(QuickHelp.asked(new String[] {"--help", "drives"})).isFalse();
        assertThat(QuickHelp.asked(new String[] {"drives"})).isFalse();
    }
}
