package tracksoak.profiles.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class CountTest {

    @Test
    void thingsAreCountedInWordsOrInDigits() {
        assertThat(Count.of(0, "stall")).isEqualTo("no stalls");
        assertThat(Count.of(1, "entry", "entries")).isEqualTo("1 entry");
        assertThat(Count.inDigits(0, "file")).isEqualTo("0 files");
        assertThat(Count.inDigits(1, "file")).isEqualTo("1 file");
        assertThat(Count.inDigits(12_345, "file")).isEqualTo("12,345 files");
    }

    @Test
    void thingsAreListedWithAnAndBeforeTheLast() {
        assertThat(Count.list(List.of())).isEmpty();
        assertThat(Count.list(List.of("a"))).isEqualTo("a");
        assertThat(Count.list(List.of("a", "b"))).isEqualTo("a and b");
        assertThat(Count.list(List.of("a", "b", "c"))).isEqualTo("a, b and c");
    }

    @Test
    void verbsFollowTheNumber() {
        assertThat(Count.inDigits(0, "is gone", "are gone")).isEqualTo("0 are gone");
        assertThat(Count.inDigits(1, "is gone", "are gone")).isEqualTo("1 is gone");
        assertThat(Count.inDigits(1_200, "is gone", "are gone")).isEqualTo("1,200 are gone");
    }
}
