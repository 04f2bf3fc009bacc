package tracksoak.bench.command.console;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tracksoak.profiles.base.Seeded;

/** An independent reader (Jackson) must get back what was written. */
class JsonTextTest {

    @Test
    void readsBackAsWritten() throws Exception {
        Map<String, Object> document = new LinkedHashMap<>();
        document.put("schema", "tracksoak/test/1");
        document.put("none", null);
        document.put("yes", true);
        document.put("long", Long.MAX_VALUE);
        document.put("double", 0.1);
        document.put("empty", List.of());
        document.put("nothing", Map.of());
        document.put("list", Arrays.asList(1, "two", null, List.of(3.5)));
        ObjectMapper reader = new ObjectMapper();
        assertThat(reader.readTree(JsonText.of(document)))
                .isEqualTo(reader.readTree(reader.writeValueAsString(document)));
    }

    @Test
    void anyStringComesBack() throws Exception {
        long seed = 20260101L;
        Random random = Seeded.random(seed);
        for (int i = 0; i < 5_000; i++) {
            StringBuilder text = new StringBuilder();
            for (int n = random.nextInt(12); n > 0; n--) {
                text.append((char) (random.nextBoolean() ? random.nextInt(0x100) : random.nextInt(0x10000)));
            }
            String written = JsonText.of(new ArrayList<>(List.of(text.toString())));
            assertThat(new ObjectMapper().readTree(written).get(0).textValue())
                    .as("seed %d, round %d: %s", seed, i, written)
                    .isEqualTo(text.toString());
            assertThat(written.chars().filter(c -> c != '\n').noneMatch(Character::isISOControl))
                    .isTrue();
        }
    }

    @Test
    void refusesWhatJsonCannotSay() {
        assertThatThrownBy(() -> JsonText.of(Double.NaN)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> JsonText.of(new Object())).isInstanceOf(IllegalArgumentException.class);
    }
}
