package tracksoak.profiles.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ProblemTest {

    @ParameterizedTest
    @CsvSource({
        "'', '', '', the drive cannot be used",
        "/media/a, '', '', the drive cannot be used: /media/a",
        "/media/a, it is gone, '', the drive cannot be used: /media/a: it is gone",
        "'', it is gone, plug it in, the drive cannot be used: it is gone; plug it in",
        "/media/a, it is gone, plug it in, the drive cannot be used: /media/a: it is gone; plug it in",
    })
    void saysAllItsPartsInOneLine(String which, String why, String todo, String message) {
        Problem problem = new Problem(Problem.Kind.CANNOT, "the drive cannot be used", which, why, todo);
        assertThat(problem).hasMessage(message).hasNoCause();
        assertThat(problem.told()).isEqualTo(message.replaceAll("; plug it in$", ""));
    }

    @Test
    void keepsItsPartsApartWhateverStandsInThem() {
        IOException cause = new IOException("behind it");
        Problem problem = new Problem(Problem.Kind.CORRUPT, "a; b", "c: d", "e; f", "g; h", cause);
        assertThat(problem)
                .returns(Problem.Kind.CORRUPT, Problem::kind)
                .returns("a; b", Problem::what)
                .returns("c: d", Problem::which)
                .returns("e; f", Problem::why)
                .returns("g; h", Problem::todo)
                .hasCause(cause);
    }

    @Test
    void tellsWhoCanPutItRight() {
        assertThat(Arrays.stream(Problem.Kind.values()).filter(Problem.Kind::ofTheAsker))
                .containsExactly(Problem.Kind.ASKED_WRONG, Problem.Kind.NOT_FOUND, Problem.Kind.REFUSED);
    }

    @Test
    void aWholeSentenceStandsAlone() {
        assertThat(Problem.askedWrong("--days is 0; allowed: 1 to 9", ""))
                .hasMessage("--days is 0; allowed: 1 to 9")
                .returns(Problem.Kind.ASKED_WRONG, Problem::kind)
                .returns("", Problem::todo);
        assertThat(Problem.cannot("it is gone", "plug it in"))
                .hasMessage("it is gone; plug it in")
                .returns(Problem.Kind.CANNOT, Problem::kind);
    }
}
