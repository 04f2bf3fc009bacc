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
import tracksoak.bench.standin.learn.Learner;
import tracksoak.bench.standin.learn.Pattern;
import tracksoak.bench.standin.probe.Probe;
import tracksoak.bench.standin.probe.ProbePlan;
import tracksoak.bench.volume.ImageFile;

/** The stand-in as a drive of this machine's kernel: file systems that are not ours, and a recorder in real time. */
@NeedsRig
class StandInOnKernelTest {

    private static final long SIZE = 1L << 30;
    private static final int CHUNK = 64 << 10;
    private static final long RATE = 384_000;

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
                                told::add)));
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
