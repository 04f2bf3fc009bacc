package tracksoak.profiles;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import tracksoak.profiles.base.Seeded;

/** Whatever a file holds, the reader answers with a session that obeys the rules or with a list of errors. */
class ProfileFuzzTest {
    private static final String[] TOKENS = {
        "[",
        "]",
        "{",
        "}",
        "[[",
        "]]",
        "=",
        ".",
        ",",
        "\"",
        "'",
        "\"\"\"",
        "'''",
        "#",
        "\n",
        "\r",
        "\0",
        "\\",
        "\\u0000",
        "\\UFFFFFFFF",
        "\\uD800",
        "nan",
        "-inf",
        "1e999",
        "0x",
        "9223372036854775807",
        "9223372036854775808",
        "-1",
        "0",
        "1979-05-27T07:32:00Z",
        "true",
        "\uFEFF",
        "\u202E",
        "日",
        "[margins]\n",
        "[[tracks]]\n",
        "tracks = 1\n",
        "tracks.count = 1\n",
        "a.b.c = {}\n",
        "= = =",
        "64 KiB",
        "-0.0",
        "1_000",
        "__",
        "+",
        "e",
        "3 h"
    };

    /** In each build; the night adds a hundred thousand. */
    @Test
    void survivesTwoThousandMutatedFiles() {
        mutate(2_000, 1L);
    }

    @Test
    @Tag("nightly")
    void survivesAHundredThousandMutatedFiles() {
        mutate(100_000, 2L);
    }

    private static void mutate(int files, long seed) {
        List<byte[]> good = SessionCatalog.shipped().all().stream()
                .map(s -> SessionToml.write(s).getBytes(UTF_8))
                .toList();
        Random random = Seeded.random(seed);
        int refused = 0;
        for (int i = 0; i < files; i++) {
            byte[] mutated = good.get(random.nextInt(good.size()));
            for (int changes = 1 + random.nextInt(4); changes > 0; changes--) {
                mutated = change(mutated, random);
            }
            try {
                Session session = SessionReader.read(mutated, "mutated");
                // What passes must be usable: it has a demand, and reads back from its own text.
                assertThat(Demand.of(session).dataBytes()).isPositive();
                assertThat(SessionReader.read(SessionToml.write(session), "again"))
                        .isEqualTo(session);
            } catch (ProfileException e) {
                refused++;
                assertThat(e.errors()).isNotEmpty().allSatisfy(error -> {
                    assertThat(error.problem()).isNotBlank();
                    assertThat(error.remedy()).isNotBlank();
                });
            } catch (RuntimeException | StackOverflowError | AssertionError e) {
                fail("seed " + seed + ", file " + i + ":\n" + new String(mutated, UTF_8), e);
            }
        }
        // Most mutations break something, and some leave a good file: else the test would look at one side only.
        assertThat(refused).as("seed %d", seed).isBetween(files / 2, files - files / 100);
    }

    private static byte[] change(byte[] from, Random random) {
        int at = random.nextInt(from.length + 1);
        return switch (random.nextInt(6)) {
            case 0 -> splice(from, at, at, TOKENS[random.nextInt(TOKENS.length)].getBytes(UTF_8));
            case 1 -> splice(from, at, Math.min(from.length, at + random.nextInt(40)), new byte[0]);
            case 2 -> splice(from, at, Math.min(from.length, at + 1), new byte[] {(byte) random.nextInt(256)});
            case 3 -> copyLine(from, at, random.nextInt(from.length + 1));
            case 4 -> swapValue(from, random);
            default -> random.nextInt(8) == 0 ? splice(from, at, from.length, new byte[0]) : swapValue(from, random);
        };
    }

    private static byte[] copyLine(byte[] from, int at, int to) {
        int start = at;
        while (start > 0 && from[start - 1] != '\n') {
            start--;
        }
        int end = start;
        while (end < from.length && from[end] != '\n') {
            end++;
        }
        return splice(from, to, to, java.util.Arrays.copyOfRange(from, start, end));
    }

    private static byte[] swapValue(byte[] from, Random random) {
        String[] lines = new String(from, UTF_8).split("\n", -1);
        int line = random.nextInt(lines.length);
        int equals = lines[line].indexOf('=');
        if (equals > 0) {
            lines[line] = lines[line].substring(0, equals + 1) + " "
                    + switch (random.nextInt(4)) {
                        case 0 -> TOKENS[random.nextInt(TOKENS.length)];
                        case 1 -> String.valueOf(random.nextLong());
                        case 2 -> String.valueOf(1 + random.nextInt(3000));
                        default -> "\"" + TOKENS[random.nextInt(TOKENS.length)] + "\"";
                    };
        }
        return String.join("\n", lines).getBytes(UTF_8);
    }

    private static byte[] splice(byte[] from, int start, int end, byte[] with) {
        byte[] spliced = new byte[from.length - (end - start) + with.length];
        System.arraycopy(from, 0, spliced, 0, start);
        System.arraycopy(with, 0, spliced, start, with.length);
        System.arraycopy(from, end, spliced, start + with.length, from.length - end);
        return spliced;
    }
}
