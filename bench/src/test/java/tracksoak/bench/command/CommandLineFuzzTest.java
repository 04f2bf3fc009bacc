package tracksoak.bench.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.job.Rooms;

/** Whatever is typed, the answer is words and an exit code, and a command line that is wrong touches no file. */
class CommandLineFuzzTest {

    private static final long SEED = 20260517L;

    /** Command lines that are right, none of which runs anything; DRIVE and FILE are filled in. */
    private static final List<String> RIGHT = List.of(
            "drives",
            "drives --json",
            "drives DRIVE",
            "sessions",
            "sessions show band-32",
            "sessions show trio-8 --on exfat --cluster 32KiB --free 58GB",
            "sessions check FILE",
            "sessions text club-16",
            "qualify DRIVE --session trio-8 --plan line-check --dry-run",
            "qualify DRIVE --session band-32 --plan sound-check --take 1min --fill-cap 5min --dry-run --json",
            "qualify --simulated steady-ssd -s club-16 -p line-check -n --tracks 12 --buffer 1s --chunk 32KiB",
            "clear DRIVE",
            "completion",
            "--version");

    private static final List<String> WRONG_WORDS = List.of(
            "--no-such-option",
            "-Z",
            "--session=",
            "--tracks=many",
            "--tracks=-1",
            "--take=3",
            "--plan=half-check",
            "--word-length=25",
            "--chunk=64",
            "--free=much",
            "--reserve=-5GB",
            "extra word",
            "\u0000",
            "\033[31m",
            "--seed=0x",
            "--rate-margin=big",
            "--out");

    private static final List<String> SOUP = List.of(
            "drives",
            "sessions",
            "show",
            "check",
            "text",
            "qualify",
            "report",
            "clear",
            "completion",
            "help",
            "--help",
            "-h",
            "--json",
            "--dry-run",
            "--session",
            "--session-file",
            "--plan",
            "--take",
            "--tracks",
            "--simulated",
            "--out",
            "--hang-limit",
            "--reserve",
            "--seed",
            "--layout",
            "band-32",
            "trio-8",
            "line-check",
            "sound-check",
            "steady-ssd",
            "interleaved",
            "30s",
            "2min",
            "64KiB",
            "48kHz",
            "1",
            "-1",
            "",
            " ",
            "=",
            "--",
            "-",
            "@args",
            "${sys:user.home}",
            "--take=30s",
            "-n",
            "DRIVE",
            "FILE",
            "/",
            "..",
            "\u202E",
            "\uD800",
            "%s%n",
            "'",
            "\"",
            "\\",
            "--=");

    @TempDir
    Path folder;

    private Path drive;
    private Path file;
    private Rooms rooms;

    @BeforeEach
    void furnish() throws IOException {
        drive = Files.createDirectory(folder.resolve("drive"));
        file = Files.writeString(folder.resolve("own.toml"), "name = 3");
        LeftBehind.in(drive);
        rooms = new TestRooms(
                Files.createDirectory(folder.resolve("host")),
                List.of(TestRooms.stick(drive.toString(), "Barley", "Wagon")));
    }

    /** In each build; the night adds a hundred thousand. */
    @Test
    void aThousandLines() throws IOException {
        lines(1_000);
    }

    @Test
    @Tag("nightly")
    @Timeout(value = 2, unit = TimeUnit.HOURS)
    void manyLines() throws IOException {
        lines(100_000);
    }

    private void lines(int count) throws IOException {
        Random random = new Random(SEED);
        List<String> before = snapshot();
        for (int i = 0; i < count; i++) {
            boolean soup = random.nextInt(4) == 0;
            List<String> line = soup ? soup(random) : broken(random);
            Typed typed = Typed.run(rooms, line.toArray(String[]::new));
            String told = "seed " + SEED + ", line " + i + ": " + line + " → " + typed;
            assertThat(typed.err())
                    .as(told)
                    .doesNotContain("\tat ")
                    .doesNotContain("went wrong")
                    .doesNotContain("\033");
            assertThat(typed.out()).as(told).doesNotContain("\033");
            if (soup) {
                assertThat(typed.code()).as(told).isIn(0, 2, 3);
            } else {
                assertThat(typed.code()).as(told).isEqualTo(2);
                assertThat(typed.err()).as(told).startsWith("tracksoak: ").contains("→");
                assertThat(typed.out()).as(told).isEmpty();
            }
        }
        assertThat(snapshot()).isEqualTo(before);
    }

    /** A right command line with one mistake put in. */
    private List<String> broken(Random random) {
        List<String> line = new ArrayList<>();
        for (String word : RIGHT.get(random.nextInt(RIGHT.size() - 1)).split(" ", -1)) {
            line.add(filled(word));
        }
        String wrong = WRONG_WORDS.get(random.nextInt(WRONG_WORDS.size()));
        // "--out" lacks its value only at the end
        boolean last = wrong.equals("--out") || random.nextBoolean();
        line.add(last ? line.size() : 1 + random.nextInt(line.size()), wrong);
        return line;
    }

    private List<String> soup(Random random) {
        List<String> line = new ArrayList<>();
        for (int n = random.nextInt(8); n > 0; n--) {
            line.add(filled(SOUP.get(random.nextInt(SOUP.size()))));
        }
        if (line.contains("qualify") || line.contains("report")) {
            line.add("--dry-run");
        }
        return line;
    }

    private String filled(String word) {
        return word.equals("DRIVE") ? drive.toString() : word.equals("FILE") ? file.toString() : word;
    }

    private List<String> snapshot() throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            return all.map(Path::toString).sorted().toList();
        }
    }
}
