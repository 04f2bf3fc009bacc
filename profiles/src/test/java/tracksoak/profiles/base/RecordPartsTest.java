package tracksoak.profiles.base;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class RecordPartsTest {

    public record Case(@Nullable String name, int cables, double kg, boolean locked, List<String> notes) {
        public Case {
            notes = List.copyOf(notes);
            if (cables < 0) {
                throw new IllegalArgumentException("no case holds " + cables + " cables");
            }
        }
    }

    @Test
    void aCopyDiffersInWhatWasSaidAlone() {
        Case blue = new Case("blue", 12, 8.5, true, List.of("left wing"));

        assertThat(RecordParts.of(blue).make()).isEqualTo(blue);
        assertThat(RecordParts.of(blue).with("cables", 13).with("name", null).make())
                .isEqualTo(new Case(null, 13, 8.5, true, List.of("left wing")));
    }

    @Test
    void whatIsNotSaidIsNothingOrIsNamed() {
        assertThat(RecordParts.empty(Case.class).with("kg", 2.0).make())
                .isEqualTo(new Case(null, 0, 2, false, List.of()));
        assertThatThrownBy(
                        () -> RecordParts.unsaid(Case.class).with("name", "red").make())
                .isInstanceOf(IllegalStateException.class)
                .hasMessage("nothing was said about cables");
    }

    @Test
    void whatIsNoPartOfItOrIsRefusedByItIsRefused() {
        RecordParts<Case> parts = RecordParts.empty(Case.class);

        assertThatThrownBy(() -> parts.with("cables", -1).make())
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("no case holds -1 cables");
        assertThatThrownBy(() -> parts.with("cable", 1).make())
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining("cable]");
    }
}
