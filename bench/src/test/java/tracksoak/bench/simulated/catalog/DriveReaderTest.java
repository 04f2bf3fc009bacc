package tracksoak.bench.simulated.catalog;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.bench.simulated.CleanUpStalls;
import tracksoak.bench.simulated.ConstantRate;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.FakeCapacity;
import tracksoak.profiles.ProfileError;
import tracksoak.profiles.ProfileException;

/** Drive files: what they give, and what is said of one that is wrong. */
class DriveReaderTest {

    private static final String GOOD = """
            name = "my-stick"
            about = "a stick"
            seed = -7
            size = "64 GB"
            used = "1 GiB"
            file_system = "fat32"
            cluster = "32 KiB"
            link_mbps = 480
            spinning = true

            [[behaviour]]
            kind = "constant-rate"
            write = "104 MB/s"
            read = "120 MiB/s"
            overhead = "150 us"

            [[behaviour]]
            kind = "clean-up-stalls"
            every = "3.2 GB"
            length = "5.3 s"

            [[behaviour]]
            kind = "fake-capacity"
            real = "8 GB"
            past = "zeros"
            """;

    @TempDir
    Path folder;

    @Test
    void aFileIsTheDriveItSays() throws Exception {
        Path file = Files.writeString(folder.resolve("my.toml"), GOOD);
        assertThat(DriveReader.read(file))
                .isEqualTo(new DriveModel(
                        "my-stick",
                        "a stick",
                        -7,
                        64_000_000_000L,
                        1L << 30,
                        "fat32",
                        32 << 10,
                        480,
                        true,
                        List.of(
                                new ConstantRate(104_000_000, 120 << 20, 150_000),
                                new CleanUpStalls(3_200_000_000L, 5_300_000_000L),
                                new FakeCapacity(8_000_000_000L, FakeCapacity.Past.ZEROS))));
    }

    @Test
    void whatMayBeLeftOutIsAUsbStickWithAnEmptyExfat() {
        String toml = GOOD.replaceAll("(?m)^(about|used|file_system|cluster|link_mbps|spinning) = .*\n", "");
        DriveModel model = DriveReader.read(toml, "my.toml");
        assertThat(model)
                .isEqualTo(DriveModel.of(
                        "my-stick",
                        "",
                        -7,
                        64_000_000_000L,
                        model.behaviours().toArray(tracksoak.bench.simulated.Behaviour[]::new)));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '^',
            value = {
                "write = \"104 MB/s\" | write = \"10 GB/s\" | my.toml:13: behaviour[0].write = \"10 GB/s\": is not allowed here; allowed: 1 kB/s to 9 GB/s; do: write one that is",
                "write = \"104 MB/s\" | write = \"104 MB\" | my.toml:13: behaviour[0].write = \"104 MB\": is no rate; write a number",
                "write = \"104 MB/s\" | write = 104 | my.toml:13: behaviour[0].write = 104: must be text with its unit",
                "write = \"104 MB/s\" | write = nan | my.toml:13: behaviour[0].write = NaN: must be text with its unit",
                "write = \"104 MB/s\" | wirte = \"104 MB/s\" | did you mean write?",
                "write = \"104 MB/s\" | | my.toml:11: behaviour[0].write: is missing, and nothing is guessed",
                "every = \"3.2 GB\" | every = \"never\" | behaviour[1].every = \"never\": is not allowed here; allowed: 4 KiB to 1024 TiB",
                "length = \"5.3 s\" | length = \"5.3\" | is no time",
                "length = \"5.3 s\" | length = \"-5 s\" | is no time",
                "past = \"zeros\" | past = \"zero\" | is none of the words; allowed: \"wraps\", \"drops\", \"zeros\"",
                "kind = \"clean-up-stalls\" | kind = \"cleanup-stalls\" | is no behaviour known here; did you mean clean-up-stalls?; allowed: ageing, ",
                "kind = \"clean-up-stalls\" | kind = \"java.lang.Object\" | is no behaviour known here",
                "kind = \"clean-up-stalls\" | kind = \"drive-model\" | is no behaviour known here",
                "seed = -7 | seed = 1.5 | my.toml:3: seed = 1.5: must be a whole number",
                "seed = -7 | seed = 99999999999999999999 | my.toml:3",
                "size = \"64 GB\" | size = \"5 TiB\" | my.toml:4: size = \"5 TiB\": is not allowed here; allowed: 32 KiB to 1 TiB",
                "size = \"64 GB\" | size = 9223372036854775807 | my.toml:4: size",
                "used = \"1 GiB\" | used = \"65 GB\" | allowed: 0 B to 64 GB",
                "used = \"1 GiB\" | used = -1 | my.toml:5: used = -1: is not allowed here",
                "cluster = \"32 KiB\" | cluster = \"5 kB\" | allowed: a multiple of 4 KiB",
                "cluster = \"32 KiB\" | cluster = 0 | my.toml:7: cluster = 0: is not allowed here; allowed: 4 KiB to 32 MiB",
                "cluster = \"32 KiB\" | cluster = 4294971392 | my.toml:7: cluster = 4294971392: is not allowed here",
                "link_mbps = 480 | link_mbps = 4294967776 | my.toml:8: link_mbps = 4294967776: is not allowed here",
                "file_system = \"fat32\" | file_system = \"ntfs\" | allowed: exfat, fat32, ext4",
                "name = \"my-stick\" | name = \"../x\" | my.toml:1: name = \"../x\": is not allowed here; allowed: small letters",
                "spinning = true | spinning = 1 | must be true or false",
                "spinning = true | colour = 1 | is no key known here",
            })
    void whatIsWrongIsSaidWithLineKeyValueRangeAndRemedy(String right, String wrong, String said) {
        String toml = GOOD.replace(right, wrong == null ? "" : wrong);
        assertThat(toml).isNotEqualTo(GOOD);
        assertThatThrownBy(() -> DriveReader.read(toml, "my.toml"))
                .isInstanceOf(ProfileException.class)
                .hasMessageContaining(said);
    }

    @Test
    void everythingWrongIsSaidAtOnceInTheOrderOfTheFile() {
        String toml = GOOD.replace("size = \"64 GB\"", "size = \"1 B\"")
                .replace("\"104 MB/s\"", "\"0 B/s\"")
                .replace("\"150 us\"", "\"25 h\"")
                .replace("\"3.2 GB\"", "\"1 kB\"")
                .replace("kind = \"fake-capacity\"", "kind = \"fake\"");
        ProfileException thrown = catchThrowableOfType(ProfileException.class, () -> DriveReader.read(toml, "my.toml"));
        assertThat(thrown.errors())
                .extracting(ProfileError::line, ProfileError::key)
                .startsWith(
                        org.assertj.core.groups.Tuple.tuple(4, "size"),
                        org.assertj.core.groups.Tuple.tuple(5, "used"),
                        org.assertj.core.groups.Tuple.tuple(13, "behaviour[0].write"),
                        org.assertj.core.groups.Tuple.tuple(15, "behaviour[0].overhead"),
                        org.assertj.core.groups.Tuple.tuple(19, "behaviour[1].every"),
                        org.assertj.core.groups.Tuple.tuple(23, "behaviour[2].kind"));
    }

    @Test
    void aKeyThatCannotBeReadHidesNoOther() {
        String toml = GOOD.replace("name = \"", "name = \"My ")
                .replace("seed = -7", "seed = \"x\"")
                .replace("size = \"64 GB\"", "size = \"large\"");
        assertThat(toml).contains("My ", "\"x\"", "large");
        ProfileException thrown = catchThrowableOfType(ProfileException.class, () -> DriveReader.read(toml, "my.toml"));
        assertThat(thrown.errors()).extracting(ProfileError::key).containsExactly("name", "seed", "size");
    }

    @Test
    void aDriveWithoutABehaviourOrWithTooManyIsRefused() {
        String head = GOOD.substring(0, GOOD.indexOf("[[behaviour]]"));
        String jitter = "[[behaviour]]\nkind = \"jitter\"\nmost = \"1 %\"\n";
        assertThatThrownBy(() -> DriveReader.read(head, "x")).hasMessageContaining("behaviour: is missing");
        assertThatThrownBy(() -> DriveReader.read(head + "behaviour = []\n", "x"))
                .hasMessageContaining("says nothing of how the drive behaves");
        assertThatThrownBy(() -> DriveReader.read(head + "behaviour = 3\n", "x"))
                .hasMessageContaining("behaviour = 3");
        assertThat(DriveReader.read(head + jitter.repeat(32), "x").behaviours()).hasSize(32);
        assertThatThrownBy(() -> DriveReader.read(head + jitter.repeat(33), "x"))
                .hasMessageContaining("too many for one drive");
        assertThatThrownBy(() -> DriveReader.read(head + jitter.repeat(2000), "x"))
                .isInstanceOf(ProfileException.class);
    }

    @Test
    void hostileTextDoesNotReachTheTerminal() {
        String hostile = "\\u001B[31m\\u202Ered\\u0007";
        DriveModel model = DriveReader.read(GOOD.replace("a stick", hostile), "x");
        assertThat(model.about()).doesNotContain("\u001B", "\u202E", "\u0007");
        assertThatThrownBy(() -> DriveReader.read(GOOD.replace("constant-rate", hostile), "x"))
                .satisfies(e -> assertThat(e.getMessage()).doesNotContain("\u001B", "\u202E", "\u0007"));
    }

    @Test
    void aFileThatIsNoDriveFileSaysSo() throws Exception {
        assertThatThrownBy(() -> DriveReader.read(folder.resolve("none.toml"))).hasMessageContaining("does not exist");
        assertThatThrownBy(() -> DriveReader.read(folder)).hasMessageContaining("give the path of a drive file");
        Path large = Files.write(folder.resolve("large.toml"), new byte[70_000]);
        assertThatThrownBy(() -> DriveReader.read(large)).hasMessageContaining("so it is no drive file");
        assertThatThrownBy(() -> DriveReader.read("name = \"a\nseed = 1", "x"))
                .hasMessageContaining("is not TOML here");
    }

    /** Files with bytes changed, taken out and doubled end in a drive or in an error for people, never in anything else. */
    @Test
    void mutatedFilesNeverBreakTheReader() {
        long seed = 41;
        System.out.println("mutated drive files: seed " + seed);
        SplittableRandom random = new SplittableRandom(seed);
        String chars = "abz019-_=\"'[]{}.\n #%/\u0000\u202E\u00e9";
        for (int i = 0; i < 2_000; i++) {
            StringBuilder toml = new StringBuilder(GOOD);
            for (int edits = random.nextInt(1, 6); edits > 0; edits--) {
                int at = random.nextInt(toml.length());
                switch (random.nextInt(3)) {
                    case 0 -> toml.setCharAt(at, chars.charAt(random.nextInt(chars.length())));
                    case 1 -> toml.delete(at, Math.min(toml.length(), at + random.nextInt(1, 30)));
                    default -> toml.insert(at, toml.substring(at, Math.min(toml.length(), at + random.nextInt(1, 40))));
                }
            }
            try {
                assertThat(DriveReader.read(toml.toString(), "mutated").behaviours())
                        .isNotEmpty();
            } catch (ProfileException e) {
                assertThat(e.errors()).isNotEmpty();
            }
        }
    }
}
