package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tracksoak.bench.standin.Serving;
import tracksoak.bench.standin.learn.BufferFound;
import tracksoak.bench.standin.learn.BufferReader;
import tracksoak.bench.standin.learn.Compared;
import tracksoak.bench.standin.learn.Compared.Alike;
import tracksoak.bench.standin.learn.Comparison;
import tracksoak.bench.standin.learn.Habit;
import tracksoak.bench.standin.learn.Learner;
import tracksoak.bench.standin.learn.Pattern;
import tracksoak.bench.standin.probe.Probe;
import tracksoak.bench.standin.probe.ProbePlan;
import tracksoak.bench.standin.trace.Note;
import tracksoak.bench.volume.ImageFile;

/** The stand-in as a drive of this machine's kernel: file systems that are not ours, and a recorder in real time. */
@NeedsRig
@Tag("program")
class StandInOnKernelTest {

    private static final long SIZE = 1L << 30;
    private static final int CHUNK = 64 << 10;
    private static final long RATE = 384_000;
    /** So slow that the pieces a file system makes of a chunk stay together on a machine that others use. */
    private static final long SLOW_RATE = 96_000;

    @TempDir
    Path folder;

    @ParameterizedTest
    @EnumSource
    void fileSystemsLiveOnIt(FileSystem fileSystem) throws IOException {
        byte[] text = "the play begins".repeat(10_000).getBytes(StandardCharsets.UTF_8);
        try (RigFolder rig = RigFolder.fresh();
                Serving serving = new Serving(folder, SIZE, null)) {
            try (KernelDrive drive = new KernelDrive(rig.path(), serving.uri(), fileSystem)) {
                Files.write(drive.path().resolve("act one.txt"), text);
                assertThat(Files.readAllBytes(drive.path().resolve("act one.txt")))
                        .isEqualTo(text);
            }
        }
        String image = Serving.image(folder).toString();
        Host.Result checked = switch (fileSystem) {
            case EXT4 -> Host.attempt(20, "e2fsck", "-fn", image);
            case EXFAT -> Host.attempt(20, "fsck.exfat", "-n", image);
            case FAT32 -> Host.attempt(20, "fsck.fat", "-n", image);
        };
        assertThat(checked.exit()).as(checked.output()).isZero();
    }

    @Test
    void theBufferOfARecorderInRealTimeIsFound() throws IOException {
        measured(4, new ProbePlan(0.35, 4, 0.3), new Probe.Pace(3_000_000, 1_000_000), 4);
    }

    @Test
    @Tag("nightly")
    void soOfADozen() throws IOException {
        for (int seed = 0; seed < 12; seed++) {
            Path own = Files.createDirectory(folder.resolve("seed-" + seed));
            measured(own, 4 + seed, new ProbePlan(0.25, 6, 0.05), new Probe.Pace(6_000_000, 2_000_000), 2 + seed % 5);
        }
    }

    /** The bench, told the recorder's session, writes in the recorder's pattern; where it differs, that is said. */
    @Test
    void qualifyWritesAsTheRecorderDoes() throws IOException {
        Pattern recorder = recorded(Files.createDirectory(folder.resolve("recorder")), drive -> {
            try (SmallRecorder recording = new SmallRecorder(drive.path(), 4, CHUNK, SLOW_RATE, 16)) {
                assertThat(Host.await(15_000, () -> !recording.failed().isEmpty()))
                        .as(recording.failed())
                        .isFalse();
            }
        });
        Pattern bench = recorded(Files.createDirectory(folder.resolve("bench")), drive -> qualified(drive, "64KiB"));
        Pattern other = recorded(Files.createDirectory(folder.resolve("other")), drive -> qualified(drive, "128KiB"));

        Comparison alike = Comparison.of(recorder, null, bench, null);
        assertThat(habits(alike, Alike.SAME))
                .as("%s", alike.lines())
                .contains(Habit.FILES, Habit.DEMAND, Habit.CHUNK, Habit.ARRIVAL, Habit.FILE_SYSTEM);
        Comparison unlike = Comparison.of(recorder, null, other, null);
        assertThat(habits(unlike, Alike.SAME))
                .as("%s", unlike.lines())
                .contains(Habit.FILES, Habit.DEMAND, Habit.ARRIVAL, Habit.FILE_SYSTEM);
        assertThat(habits(unlike, Alike.DIFFERENT)).contains(Habit.CHUNK);
        assertThat(unlike.lines()).contains("Differs: Chunk: 65.5 kB here, 131 kB there.");
    }

    private static List<Habit> habits(Comparison comparison, Alike alike) {
        return comparison.habits().stream()
                .filter(one -> one.alike() == alike)
                .map(Compared::habit)
                .toList();
    }

    /** Four tracks of 48 kHz/16-bit, as the small recorder records them; all files stay on the drive. */
    private void qualified(KernelDrive drive, String chunk) {
        try (Program run = Program.of(
                folder,
                "qualify",
                drive.path().toString(),
                "--session=trio-8",
                "--tracks=4",
                "--sample-rate=48kHz",
                "--word-length=16-bit",
                "--chunk=" + chunk,
                "--buffer=4s",
                "--length=60s",
                "--plan=line-check",
                "--take=15s",
                "--idle=0s",
                "--reserve=16MiB",
                "--leave-keepsake=1GB",
                "--no-roster",
                "--out=" + folder.resolve("out-" + chunk))) {
            assertThat(run.await()).as(run.output()).isIn(0, 4); // a machine that others use may be late
        }
    }

    /** Records, and ends. */
    @FunctionalInterface
    private interface Recording {
        void to(KernelDrive drive) throws IOException;
    }

    private static Pattern recorded(Path own, Recording recording) throws IOException {
        try (RigFolder rig = RigFolder.fresh();
                Serving serving = new Serving(own, SIZE, null)) {
            try (KernelDrive drive = new KernelDrive(rig.path(), serving.uri(), FileSystem.EXFAT)) {
                recording.to(drive);
            }
        }
        try (ImageFile image = ImageFile.open(Serving.image(own))) {
            return Learner.learn(Serving.trace(own), image);
        }
    }

    private void measured(int bufferChunks, ProbePlan plan, Probe.Pace pace, int tracks) throws IOException {
        measured(folder, bufferChunks, plan, pace, tracks);
    }

    private static void measured(Path own, int bufferChunks, ProbePlan plan, Probe.Pace pace, int tracks)
            throws IOException {
        List<String> told = new CopyOnWriteArrayList<>();
        List<Probe> probe = new ArrayList<>();
        try (RigFolder rig = RigFolder.fresh();
                Serving serving = new Serving(own, SIZE, null, entry -> probe.forEach(one -> one.answered(entry)))) {
            try (KernelDrive drive = new KernelDrive(rig.path(), serving.uri(), FileSystem.EXFAT)) {
                serving.standIn()
                        .soon(() -> probe.add(new Probe(
                                plan,
                                pace,
                                serving.standIn().stops(),
                                SIZE,
                                serving.standIn().hostWatch(),
                                false,
                                told::add,
                                us -> serving.standIn().note(Note.FELL_SHORT, us))));
                try (SmallRecorder recorder = new SmallRecorder(drive.path(), tracks, CHUNK, RATE, bufferChunks)) {
                    boolean done = Host.await(
                            300_000,
                            () -> told.contains(Probe.ALL_TRIED)
                                    || !recorder.failed().isEmpty());
                    assertThat(recorder.failed()).as("%s", told).isEmpty();
                    assertThat(done).as("%s", told).isTrue();
                }
            }
        }
        try (ImageFile image = ImageFile.open(Serving.image(own))) {
            BufferFound found = BufferReader.read(Serving.trace(own), image);
            double bufferS = bufferChunks * (double) CHUNK / RATE;
            double chunkS = (double) CHUNK / RATE;
            String of = String.join("\n", told) + "\n" + found;
            assertThat(found.heldS().orElse(0)).as(of).isBetween(bufferS * 0.8 - chunkS, bufferS + 0.1 * chunkS);
            assertThat(found.lostS().orElse(0)).as(of).isBetween(bufferS - chunkS, bufferS * 1.2 + chunkS);
            Pattern pattern = Learner.learn(Serving.trace(own), image);
            assertThat(pattern.chunkBytes()).as(of).hasValue(CHUNK);
            assertThat(pattern.streams()).as(of).isEqualTo(tracks);
        }
    }
}
