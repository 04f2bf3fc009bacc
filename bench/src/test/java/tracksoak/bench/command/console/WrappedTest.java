package tracksoak.bench.command.console;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class WrappedTest {

    private static String printed(int columns, String lead, String text) {
        StringWriter out = new StringWriter();
        new Wrapped(new PrintWriter(out, true), columns).print(lead, text);
        return out.toString().replace("\r\n", "\n");
    }

    @Test
    void linesThatFollowStandBelowTheTextsBeginning() {
        assertThat(printed(24, "Missed: ", "the drive stood still for long"))
                .isEqualTo("Missed: the drive stood\n        still for long\n");
    }

    @Test
    void noWordIsCutAndNothingFromOutsideDrawsOnTheTerminal() {
        assertThat(printed(10, "", "see /a/very/long/path now")).isEqualTo("see\n/a/very/long/path\nnow\n");
        assertThat(printed(80, "", "a\033[31mb")).doesNotContain("\033");
    }

    @Test
    void aPathCanBeCopiedToAShell() {
        assertThat(ShellWord.of(Path.of("/media/me/STICK"))).isEqualTo("/media/me/STICK");
        assertThat(ShellWord.of("/media/my stick's")).isEqualTo("'/media/my stick'\\''s'");
    }
}
