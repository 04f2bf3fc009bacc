package tracksoak.report.page.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.base.Seeded;

class ThinningTest {

    @Test
    void keepsAShortSeriesWhole() {
        assertThat(Thinning.peaks(new double[] {3, 1, 2}, 3)).containsExactly(0, 1, 2);
        assertThat(Thinning.extremes(new double[] {3, 1, 2}, 3)).containsExactly(0, 1, 2);
        assertThat(Thinning.peaks(new double[0], 5)).isEmpty();
    }

    @Test
    void keepsThePeakOfEachSpan() {
        double[] values = {1, 9, 2, 3, 4, 8, 7, 5};
        assertThat(Thinning.peaks(values, 2)).containsExactly(1, 5);
        assertThat(Thinning.extremes(values, 4)).containsExactly(0, 1, 4, 5);
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void neverLosesTheLargestOrSmallestOfALongRun(long seed) {
        Random random = Seeded.random(seed);
        double[] values = random.doubles(43_201).map(v -> v * 500).toArray();
        double most = Arrays.stream(values).max().orElseThrow();
        double least = Arrays.stream(values).min().orElseThrow();

        int[] peaks = Thinning.peaks(values, ChartData.MOST_POINTS);
        assertThat(peaks).hasSizeLessThanOrEqualTo(2000).isSorted();
        assertThat(Arrays.stream(peaks).mapToDouble(i -> values[i]).max()).hasValue(most);

        int[] both = Thinning.extremes(values, ChartData.MOST_POINTS);
        assertThat(both).hasSizeLessThanOrEqualTo(2000).isSorted().doesNotHaveDuplicates();
        assertThat(Arrays.stream(both).mapToDouble(i -> values[i]).max()).hasValue(most);
        assertThat(Arrays.stream(both).mapToDouble(i -> values[i]).min()).hasValue(least);
    }
}
