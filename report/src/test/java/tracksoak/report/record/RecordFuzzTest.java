package tracksoak.report.record;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import tracksoak.profiles.base.Seeded;
import tracksoak.report.page.ReportPage;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordJson;
import tracksoak.report.verdict.Judge;

/** Whatever a record file holds, it is read and can be judged and shown, or it is refused in words. */
class RecordFuzzTest {

    private static final List<String> FIXTURES =
            List.of("every-part", "just-begun", "line-check-fail", "sound-check-pass");

    private static final List<String> TOKENS = List.of(
            "{",
            "}",
            "[",
            "]",
            ",",
            ":",
            "\"",
            "\\",
            "\\u0000",
            "\\u202e",
            "null",
            "true",
            "NaN",
            "-1",
            "0",
            "1e999",
            "9223372036854775808",
            "-0.0",
            "1e-320",
            "\"</script>\"",
            "\"\\ud800\"",
            "\"take\":",
            "\0",
            "\uFEFF",
            "//",
            "[[[[[[[[[[",
            "\"schema\":\"tracksoak/run-record/3\",",
            "0.5");

    /** Showing a page takes longer than reading, so only every so-manieth readable record is shown. */
    private static final int SHOW_EVERY = 20;

    /** In each build; the night adds a hundred thousand. */
    @Test
    void survivesFifteenHundredMutatedRecords() throws IOException {
        mutate(1_500, 3L);
    }

    @Test
    @Tag("nightly")
    void survivesAHundredThousandMutatedRecords() throws IOException {
        mutate(100_000, 4L);
    }

    private static void mutate(int records, long seed) throws IOException {
        List<byte[]> good = new ArrayList<>();
        for (String fixture : FIXTURES) {
            good.add(fixture(fixture));
        }
        Random random = Seeded.random(seed);
        int refused = 0;
        int read = 0;
        for (int i = 0; i < records; i++) {
            byte[] mutated = good.get(random.nextInt(good.size()));
            for (int changes = 1 + random.nextInt(3); changes > 0; changes--) {
                mutated = change(mutated, random);
            }
            try {
                RunRecord record = RecordJson.read(mutated);
                RunRecord judged = record.withVerdict(Judge.judge(record));
                assertThat(RecordJson.read(RecordJson.bytes(judged))).isEqualTo(judged);
                if (read++ % SHOW_EVERY == 0) {
                    assertThat(ReportPage.render(judged)).doesNotContain("<script>alert");
                }
            } catch (RecordException clear) {
                refused++;
                assertThat(clear.getMessage()).isNotBlank().hasSizeLessThan(2_000);
            } catch (RuntimeException | StackOverflowError | AssertionError broken) {
                fail("seed " + seed + ", record " + i + ": " + broken, broken);
            }
        }
        assertThat(refused).as("seed %s", seed).isBetween(records / 10, records - records / 100);
    }

    private static byte[] change(byte[] record, Random random) {
        int at = random.nextInt(record.length);
        int length = Math.min(record.length - at, 1 + random.nextInt(12));
        return switch (random.nextInt(6)) {
            case 0 -> replaced(record, at, length, new byte[0]);
            case 1 ->
                replaced(
                        record, at, 0, TOKENS.get(random.nextInt(TOKENS.size())).getBytes(US_ASCII));
            case 2 -> replaced(record, at, 1, new byte[] {(byte) random.nextInt(256)});
            case 3 -> replaced(record, at, 0, java.util.Arrays.copyOfRange(record, at, at + length));
            case 4 -> withOtherNumber(record, at, random);
            default ->
                random.nextInt(10) == 0
                        ? replaced(record, at, record.length - at, new byte[0])
                        : withOtherNumber(record, at, random);
        };
    }

    /** Puts another number where one stands, so that many records stay well-formed and reach the checks behind the parser. */
    private static byte[] withOtherNumber(byte[] record, int from, Random random) {
        for (int at = from; at < record.length - 1; at++) {
            if (record[at] == ':' && Character.isDigit(record[at + 1])) {
                int end = at + 1;
                while (end < record.length && "0123456789.eE+-".indexOf(record[end]) >= 0) {
                    end++;
                }
                String other = switch (random.nextInt(5)) {
                    case 0 -> "0";
                    case 1 -> "-" + random.nextInt(1000);
                    case 2 -> Long.toString(random.nextLong() >>> random.nextInt(63));
                    case 3 -> Double.toString(random.nextDouble() * 1e6);
                    default -> "1e" + random.nextInt(400);
                };
                return replaced(record, at + 1, end - at - 1, other.getBytes(US_ASCII));
            }
        }
        return record;
    }

    private static byte[] replaced(byte[] record, int at, int length, byte[] by) {
        ByteArrayOutputStream out = new ByteArrayOutputStream(record.length + by.length);
        out.write(record, 0, at);
        out.write(by, 0, by.length);
        out.write(record, at + length, record.length - at - length);
        byte[] changed = out.toByteArray();
        return changed.length == 0 ? new byte[] {'{'} : changed;
    }

    private static byte[] fixture(String name) throws IOException {
        try (InputStream in = RecordFuzzTest.class.getResourceAsStream("/records/version-1-" + name + ".json")) {
            return Objects.requireNonNull(in, name).readAllBytes();
        }
    }
}
