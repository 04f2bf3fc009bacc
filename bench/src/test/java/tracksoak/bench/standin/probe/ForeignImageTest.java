package tracksoak.bench.standin.probe;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.standin.RequestWatch;
import tracksoak.bench.standin.VirtualStandIn;
import tracksoak.bench.standin.learn.Learner;
import tracksoak.bench.standin.learn.Pattern;
import tracksoak.bench.standin.model.ModelRecorder;
import tracksoak.bench.standin.model.RecorderModel;
import tracksoak.bench.standin.model.RecorderModel.Overrun;
import tracksoak.bench.volume.ByteSource;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.VirtualClock;

/** A trace held against the image of another recording. */
class ForeignImageTest {

    private static final long DRIVE = 2L << 30;
    private static final int CLUSTER = 32 << 10;

    @TempDir
    Path folder;

    private static RecorderModel model(int tracks, int chunk, long advanceBytes) {
        return new RecorderModel(
                tracks,
                48_000,
                3,
                false,
                chunk,
                false,
                1,
                8,
                false,
                Overrun.DROPS,
                5,
                10,
                advanceBytes,
                Long.MAX_VALUE,
                "fat32",
                CLUSTER);
    }

    /** Records for that long and gives the image. */
    private ByteSource recorded(RecorderModel model, long seconds, long driveBytes, String trace) throws IOException {
        VirtualClock clock = new VirtualClock(0);
        Random random = new Random(1);
        try (VirtualStandIn drive = new VirtualStandIn(driveBytes, clock, folder.resolve(trace), RequestWatch.NONE)) {
            new ModelRecorder(model, clock, drive, driveBytes, (stream, number) -> {
                        byte[] audio = new byte[model.chunkBytes()];
                        random.nextBytes(audio);
                        return audio;
                    })
                    .record(() -> clock.nanoTime() < seconds * 1_000_000_000L);
            return drive.bytes();
        }
    }

    @Test
    void filesThatHoldMoreAudioThanTheTraceWroteAreAnotherRecordings() throws IOException {
        recorded(model(8, 3 * CLUSTER, 0), 40, DRIVE, "short");
        ByteSource other = recorded(model(6, CLUSTER, 0), 130, DRIVE, "long");

        assertThatThrownBy(() -> Learner.learn(folder.resolve("short"), other))
                .isInstanceOf(Problem.class)
                .hasMessageContaining("This image was not recorded with this trace")
                .hasMessageContaining("of audio, and the trace wrote only the first")
                .hasMessageContaining("so it is with 6 of 6 files");
    }

    /** Files may have been deleted since: that is a caution only. */
    @Test
    void whatWasWrittenAndLiesInNoFileIsToldFirst() throws IOException {
        recorded(model(6, CLUSTER, 0), 130, DRIVE, "long");
        ByteSource other = recorded(model(8, 3 * CLUSTER, 0), 40, DRIVE, "short");

        Pattern pattern = Learner.learn(folder.resolve("long"), other);

        assertThat(pattern.doubts())
                .singleElement()
                .satisfies(one -> assertThat(one)
                        .contains(
                                "lie in no file of this image", "deleted since", "the image is of another recording"));
    }

    @Test
    void anImageOfAnotherSizeIsRefused() throws IOException {
        recorded(model(2, CLUSTER, 0), 40, DRIVE, "small");
        ByteSource other = recorded(model(2, CLUSTER, 0), 40, 2 * DRIVE, "large");

        assertThatThrownBy(() -> Learner.learn(folder.resolve("small"), other))
                .isInstanceOf(Problem.class)
                .hasMessageContaining("This image was not recorded with this trace")
                .hasMessageContaining("2,147,483,648 bytes");
    }

    @Test
    void aRecorderThatTakesSpaceInAdvanceIsNotDoubted() throws IOException {
        ByteSource own = recorded(model(4, CLUSTER, 4 << 20), 40, DRIVE, "own");

        assertThat(Learner.learn(folder.resolve("own"), own).doubts()).isEmpty();
    }
}
