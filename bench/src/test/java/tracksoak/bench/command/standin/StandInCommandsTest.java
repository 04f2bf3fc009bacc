package tracksoak.bench.command.standin;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.PressedAtOnce;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.standin.RequestWatch;
import tracksoak.bench.standin.VirtualStandIn;
import tracksoak.bench.standin.model.ModelRecorder;
import tracksoak.bench.standin.model.RecorderModel;
import tracksoak.bench.standin.model.RecorderModel.Overrun;
import tracksoak.bench.volume.Extent;
import tracksoak.bench.volume.ImageFile;
import tracksoak.bench.volume.Volume;
import tracksoak.bench.volume.VolumeFile;
import tracksoak.bench.volume.VolumeReader;
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
    void holdsTwoRecordingsAgainstEachOther() throws IOException {
        Path page = folder.resolve("page.html");
        String[] same = {
            "learn",
            trace.toString(),
            image.toString(),
            "--against",
            trace.toString(),
            image.toString(),
            "--page",
            page.toString()
        };
        Typed typed = typed(same);
        assertThat(typed.code()).as(typed.err()).isZero();
        assertThat(typed.out())
                .contains("Held against the other recording:")
                .contains("Nothing that can be told differs.")
                .contains("The same: Files written at the same time, Tracks, Demand, Chunk")
                .contains("Cannot be told of both: Tables and folders and Largest file.");
        assertThat(Files.readString(page)).contains("Nothing that can be told differs.");

        Typed json = typed(
                "learn", trace.toString(), image.toString(), "--against", trace.toString(), image.toString(), "--json");
        JsonNode against = new ObjectMapper().readTree(json.out()).get("against");
        assertThat(against.get("habits").findValuesAsText("alike"))
                .contains("same", "unknown")
                .doesNotContain("different");
        assertThat(against.get("buffers").isNull()).isTrue();
    }

    @Test
    void saysThatATraceBreaksOffAndConcludesNothingFromItsEnd() throws IOException {
        byte[] sound = Files.readAllBytes(trace);
        Path half = folder.resolve("half.trace");
        Files.write(half, Arrays.copyOf(sound, sound.length / 2));
        Path page = folder.resolve("half.html");
        Path session = folder.resolve("half.toml");
        String[] words = {
            "learn",
            half.toString(),
            image.toString(),
            "--against",
            trace.toString(),
            image.toString(),
            "--page",
            page.toString(),
            "--session-out",
            session.toString()
        };
        Typed typed = typed(words);
        assertThat(typed.code()).as(typed.err()).isZero();
        assertThat(typed.out())
                .contains("Mind: The trace has no end: it breaks off after")
                .contains("At stop: cannot be told")
                .contains("Headers written again: not before the trace breaks off")
                .doesNotContain("Differs: At stop");
        assertThat(Files.readString(page)).contains("The trace has no end");
        assertThat(Files.readString(session)).contains("# Mind: The trace has no end");
        String[] json = {"learn", half.toString(), image.toString(), "--json"};
        assertThat(new ObjectMapper().readTree(typed(json).out()).get("warnings"))
                .hasSize(1);
        assertThat(typed("learn", trace.toString(), image.toString()).out()).doesNotContain("Mind:");
    }

    @Test
    void saysThatSomethingLiesBehindTheEndOfATrace() throws IOException {
        Files.write(trace, new byte[] {1, 2, 3}, StandardOpenOption.APPEND);
        assertThat(typed("learn", trace.toString(), image.toString()).out())
                .contains("Mind: Behind the end of the trace lie 3 bytes that belong to no entry")
                .contains("header writes after the last audio");
    }

    @Test
    void filesThatMayBeMissingAreNoReasonForFewerTracks() throws IOException {
        chainPointsAtItself();
        Path page = folder.resolve("hurt.html");
        Path session = folder.resolve("hurt.toml");
        String[] words = {
            "learn", trace.toString(), image.toString(), "--page", page.toString(), "--session-out", session.toString()
        };
        Typed typed = typed(words);
        assertThat(typed.code()).as(typed.err()).isZero();
        String mind = "The file system contradicts itself: ";
        assertThat(typed.out())
                .contains("Mind: " + mind)
                .contains("Tracks: cannot be told")
                .contains("3 at 48 kHz, 24-bit by the files that can be read");
        assertThat(Files.readString(page)).contains(mind);
        assertThat(Files.readString(session))
                .contains("# Mind: " + mind)
                .contains("# a guess: the file system contradicts itself, so files may be missing");
    }

    /** As a recorder that lost power may leave it: the second cluster of a file is said to follow itself. */
    private void chainPointsAtItself() throws IOException {
        try (ImageFile bytes = ImageFile.open(image);
                RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
            Volume volume = VolumeReader.read(bytes);
            VolumeFile first = volume.files().stream()
                    .filter(one -> one.path().endsWith(".WAV"))
                    .findFirst()
                    .orElseThrow();
            long cluster =
                    2 + (first.extents().get(0).startByte() - volume.heap().startByte()) / volume.clusterBytes();
            for (Extent table : volume.tables()) {
                file.seek(table.startByte() + 4 * cluster);
                file.writeInt(Integer.reverseBytes((int) cluster));
            }
        }
    }

    @Test
    void tellsWhatItCannotUse() throws IOException {
        Path other = folder.resolve("<b>notes.txt");
        Files.writeString(other, "the play begins", StandardCharsets.UTF_8);
        refused(typed("learn", folder.resolve("none").toString(), image.toString()), "no such file");
        refused(typed("learn", other.toString(), image.toString()), "does not begin as a trace does");
        refused(typed("learn", trace.toString(), other.toString()), "no file system");
        refused(typed("learn", trace.toString(), folder.resolve("none").toString()), "cannot be read");
        refused(typed("learn", trace.toString(), image.toString(), "--against", trace.toString()), "--against");
        refused(
                typed("learn", trace.toString(), image.toString(), "--against", trace.toString(), other.toString()),
                "<b>notes.txt");
        refused(typed("learn", "a", "b", "--against", "c", "d", "--against", "e", "f"), "more than once");
        Path ext = folder.resolve("ext.img");
        byte[] superblock = new byte[4096];
        superblock[1080] = 0x53;
        superblock[1081] = (byte) 0xEF;
        Files.write(ext, superblock);
        refused(typed("learn", trace.toString(), ext.toString()), "it is ext2, ext3 or ext4");
        refused(typed("serve", folder.resolve("new.img").toString()), "--size");
        refused(typed("serve", other.toString(), "--size", "1GB"), "nothing of yours is written to");
        String[] tooSmall = {"serve", folder.resolve("new.img").toString(), "--size", "1kB", "--listen", "127.0.0.1:0"};
        refused(typed(tooSmall), "cannot be made");
        refused(typed("serve", folder.resolve("new.img").toString(), "--size", "1GB", "--listen", "here"), "--listen");
        refused(typed("serve", folder.resolve("new.img").toString(), "--as", "no-such-drive"), "no-such-drive");
        refused(typed("probe", folder.resolve("new.img").toString(), "--size", "1GB", "--first", "2h"), "--first");
        String[] probe = {
            "probe", folder.resolve("new.img").toString(), "--size", "1GB", "--session-out", other.toString()
        };
        refused(typed(probe), "never written over");
        String none = folder.resolve("none").toString();
        refused(
                typed("probe", folder.resolve("new.img").toString(), "--size", "1GB", "--against", none, none),
                "no such file");
        assertThat(Files.readString(other)).isEqualTo("the play begins");
        assertThat(folder.resolve("new.img")).doesNotExist();
    }

    @Test
    void aPortThatIsTakenLeavesNothingBehind() throws IOException {
        Path fresh = folder.resolve("new.img");
        try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            for (String command : List.of("serve", "probe")) {
                String[] words = {
                    command, fresh.toString(), "--size", "1GB", "--listen", "127.0.0.1:" + taken.getLocalPort()
                };
                Typed typed = typed(words);
                assertThat(typed.code()).as(typed.err()).isEqualTo(3);
                assertThat(typed.err()).contains("cannot listen");
            }
        }
        String[] nowhere = {
            "serve",
            fresh.toString(),
            "--size",
            "1GB",
            "--listen",
            "127.0.0.1:0",
            "--trace",
            folder.resolve("none").resolve("trace").toString()
        };
        assertThat(typed(nowhere).err()).contains("cannot be written");
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left)
                    .filteredOn(file -> file.toString().contains("new.img"))
                    .isEmpty();
        }
    }

    @Test
    void aProbeThatNoRecorderCameToSaysThatNothingWasSeen() {
        Path fresh = folder.resolve("new.img");
        Typed typed = Typed.run(
                new TestRooms(folder, List.of()),
                new PressedAtOnce(),
                "stand-in",
                "probe",
                fresh.toString(),
                "--size",
                "1GB",
                "--listen",
                "127.0.0.1:0");
        assertThat(typed.code()).isEqualTo(130);
        assertThat(typed.err()).contains("nothing was seen").doesNotContain("told all the same");
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
