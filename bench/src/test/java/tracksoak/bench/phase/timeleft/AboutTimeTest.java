package tracksoak.bench.phase.timeleft;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AboutTimeTest {

    @ParameterizedTest
    @CsvSource({
        "0, a few seconds",
        "4.9, a few seconds",
        "5, about 10 s",
        "14.9, about 10 s",
        "54.9, about 50 s",
        "55, about 1 min",
        "89, about 1 min",
        "90, about 2 min",
        "569, about 9 min",
        "570, about 10 min",
        "749, about 10 min",
        "750, about 15 min",
        "1500, about 25 min",
        "3449, about 55 min",
        "3450, about 1 h",
        "4049, about 1 h",
        "4050, about 1 h 15 min",
        "6300, about 1 h 45 min",
        "10800, about 3 h",
        "85950, about 24 h"
    })
    void roundsAsAPersonWould(double s, String text) {
        assertThat(AboutTime.of(s)).isEqualTo(text);
    }

    @Test
    void isNeverFurtherOffThanHalfAStep() {
        for (int s = 0; s < 90_000; s++) {
            double halfStepS = s < 55 ? 5 : s < 570 ? 30 : s < 3450 ? 150 : 450;
            assertThat(Math.abs(seconds(AboutTime.of(s)) - s)).as("%d s", s).isLessThanOrEqualTo(halfStepS);
        }
    }

    private static double seconds(String text) {
        if (text.equals("a few seconds")) {
            return 0;
        }
        double sum = 0;
        String[] words = text.split(" ", -1);
        for (int i = 1; i < words.length; i += 2) {
            double unit = switch (words[i + 1]) {
                case "s" -> 1;
                case "min" -> 60;
                default -> 3600;
            };
            sum += Double.parseDouble(words[i]) * unit;
        }
        return sum;
    }
}
