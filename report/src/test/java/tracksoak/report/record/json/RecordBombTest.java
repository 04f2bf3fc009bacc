package tracksoak.report.record.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.util.Collections;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.RecordException;

/** A short text that stands for a heap of small parts is refused before they are made. */
class RecordBombTest {

    private static final long MOST_ALLOCATED_BYTES = 24L << 20;

    @ParameterizedTest
    @ValueSource(strings = {"\"\"", "{}", "[]", "null", "1.5", "[[[]]]", "{\"a\":{\"a\":1}}"})
    void fourMillionSmallPartsAreNotMade(String part) {
        String record = RecordJson.write(RunSketch.good().record());
        int most = 15_000_000 / (part.length() + 1);
        for (String version : new String[] {"3", "2", "1"}) {
            byte[] bomb = record.replace("run-record/3", "run-record/" + version)
                    .replaceFirst(
                            "\"checkByHand\": ?\\[ *]",
                            "\"checkByHand\": [" + String.join(",", Collections.nCopies(most, part)) + "]")
                    .getBytes(StandardCharsets.UTF_8);
            assertThat(bomb.length).isGreaterThan(14_000_000);
            assertThatThrownBy(() -> RecordJson.read(bomb)).isInstanceOf(RecordException.class);
            long before = allocatedBytes();
            assertThatThrownBy(() -> RecordJson.read(bomb)).isInstanceOf(RecordException.class);
            assertThat(allocatedBytes() - before).as("allocated, in bytes").isLessThan(MOST_ALLOCATED_BYTES);
        }
    }

    @Test
    void aMillionNamesBeforeTheSchemaAreNotKept() {
        StringBuilder bomb = new StringBuilder("{\"other\":{");
        for (int i = 0; i < 1_000_000; i++) {
            bomb.append('"').append(i).append("\":1,");
        }
        byte[] json = bomb.append("\"end\":1},\"schema\":\"tracksoak/run-record/3\"}")
                .toString()
                .getBytes(StandardCharsets.UTF_8);
        assertThatThrownBy(() -> RecordJson.read(json)).isInstanceOf(RecordException.class);
        long before = allocatedBytes();
        assertThatThrownBy(() -> RecordJson.read(json)).hasMessageContaining("more than 10000");
        assertThat(allocatedBytes() - before).as("allocated, in bytes").isLessThan(MOST_ALLOCATED_BYTES);
    }

    private static long allocatedBytes() {
        return ((ThreadMXBean) ManagementFactory.getThreadMXBean()).getCurrentThreadAllocatedBytes();
    }
}
