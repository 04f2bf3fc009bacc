package tracksoak.bench.command.standin;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.standin.RequestWatch;
import tracksoak.bench.standin.VirtualStandIn;
import tracksoak.bench.standin.model.ModelRecorder;
import tracksoak.bench.standin.model.RecorderModel;
import tracksoak.bench.standin.model.RecorderModel.Overrun;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionReader;
import tracksoak.profiles.base.VirtualClock;

class StandInCommandsTest {

    private static final long SIZE = 256L << 20;
    private static final int SEEDS = 120;

    @TempDir
    Path folder;

    private Path image;
    private Path trace;

    /** Two minutes of four tracks. */
    @BeforeEach
    void record() throws IOException {
        image = folder.resolve("drive.img");
        trace = folder.resolve("drive.img.trace");
        VirtualClock clock = new VirtualClock(0);
        try (VirtualStandIn drive = new VirtualStandIn(SIZE, clock, trace, RequestWatch.NONE)) {
            RecorderModel model = new RecorderModel(
                    4,
                    48_000,
                    3,
                    false,
                    64 << 10,
                    true,
                    1,
                    4,
                    false,
                    Overrun.DROPS,
                    10,
                    0,
                    0,
                    Long.MAX_VALUE,
                    "fat32",
                    4096);
            new ModelRecorder(model, clock, drive, SIZE).record(() -> clock.nanoTime() < 120_000_000_000L);
            drive.endTrace();
            try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
                file.setLength(SIZE);
                for (long at = 0; at < SIZE; at += 1 << 20) {
                    byte[] piece = drive.bytes().read(at, 1 << 20);
                    if (!Arrays.equals(piece, new byte[piece.length])) {
                        file.seek(at);
                        file.write(piece);
                    }
                }
            }
        }
    }

    private Typed typed(String... words) {
        return Typed.run(
                new TestRooms(folder, List.of()),
                Stream.concat(Stream.of("stand-in"), Stream.of(words)).toArray(String[]::new));
    }

    @Test
    void learnsASession() throws IOException {
        Path session = folder.resolve("our desk.toml");
        Typed typed = typed("learn", trace.toString(), image.toString(), "--session-out", session.toString());
        assertThat(typed.code()).as(typed.err()).isZero();
        assertThat(typed.out())
                .contains("Chunk: 65.5 kB")
                .contains("spread evenly")
                .contains("every 10 s");
        String text = Files.readString(session);
        Session read = SessionReader.read(text, "our desk.toml");
        assertThat(read.name()).isEqualTo("our-desk");
        assertThat(read.tracks()).isEqualTo(4);
        assertThat(read.bufferAssumed()).isTrue();
        assertThat(text).contains("# a guess: measure it with tracksoak stand-in probe");

        Typed json = typed("learn", trace.toString(), image.toString(), "--json");
        JsonNode document = new ObjectMapper().readTree(json.out());
        assertThat(document.get("schema").textValue()).isEqualTo("tracksoak/stand-in-learn/1");
        assertThat(document.get("pattern")).isNotEmpty();

        Typed again = typed("learn", trace.toString(), image.toString(), "--session-out", session.toString());
        assertThat(again.code()).isEqualTo(2);
        assertThat(again.err()).contains("never written over");
    }

    @Test
    void tellsWhatItCannotUse() throws IOException {
        Path other = folder.resolve("<b>notes.txt");
        Files.writeString(other, "the play begins", StandardCharsets.UTF_8);
        refused(typed("learn", folder.resolve("none").toString(), image.toString()), "no such file");
        refused(typed("learn", other.toString(), image.toString()), "does not begin as a trace does");
        refused(typed("learn", trace.toString(), other.toString()), "no file system");
        refused(typed("learn", trace.toString(), folder.resolve("none").toString()), "cannot be read");
        refused(typed("serve", folder.resolve("new.img").toString()), "--size");
        refused(typed("serve", other.toString(), "--size", "1GB"), "nothing of yours is written to");
        refused(typed("serve", folder.resolve("new.img").toString(), "--size", "1kB"), "cannot be made");
        refused(typed("serve", folder.resolve("new.img").toString(), "--size", "1GB", "--listen", "here"), "--listen");
        refused(typed("serve", folder.resolve("new.img").toString(), "--as", "no-such-drive"), "no-such-drive");
        refused(typed("probe", folder.resolve("new.img").toString(), "--size", "1GB", "--first", "2h"), "--first");
        assertThat(Files.readString(other)).isEqualTo("the play begins");
        assertThat(folder.resolve("new.img")).doesNotExist();
    }

    private static void refused(Typed typed, String why) {
        assertThat(typed.code()).as(typed.err()).isEqualTo(2);
        assertThat(typed.err()).contains(why).doesNotContain("Exception:").doesNotContain("\tat ");
    }

    @Test
    void whateverIsDamagedInATraceIsToldOrLeftOut() throws IOException {
        byte[] sound = Files.readAllBytes(trace);
        Path hurt = folder.resolve("hurt.trace");
        for (int seed = 0; seed < SEEDS; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            byte[] bytes = Arrays.copyOf(sound, random.nextInt(4) == 0 ? random.nextInt(sound.length) : sound.length);
            for (int i = random.nextInt(8); i > 0 && bytes.length > 0; i--) {
                bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
            }
            Files.write(hurt, bytes);
            Typed typed = typed("learn", hurt.toString(), image.toString());
            assertThat(typed.code()).as("seed %s: %s", seed, typed.err()).isIn(0, 2, 3);
            assertThat(typed.err())
                    .as("seed %s", seed)
                    .doesNotContain("inside tracksoak")
                    .doesNotContain("\tat ");
        }
    }
}
