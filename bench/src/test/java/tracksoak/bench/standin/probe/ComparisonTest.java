package tracksoak.bench.standin.probe;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.standin.learn.Compared;
import tracksoak.bench.standin.learn.Compared.Alike;
import tracksoak.bench.standin.learn.Comparison;
import tracksoak.bench.standin.learn.Comparison.Share;
import tracksoak.bench.standin.learn.Habit;
import tracksoak.bench.standin.model.RecorderModel;
import tracksoak.bench.standin.model.RecorderModel.Overrun;

class ComparisonTest {

    private static final int CHUNK = 64 << 10;

    @TempDir
    Path folder;

    private int traces;

    /** Eight tracks of 48 kHz/24-bit, one file each. */
    private static RecorderModel usual(int tracks, int chunk, boolean staggered, double flushS, String fileSystem) {
        return new RecorderModel(
                tracks,
                48_000,
                3,
                false,
                chunk,
                staggered,
                1,
                4,
                false,
                Overrun.DROPS,
                flushS,
                0,
                0,
                1L << 40,
                fileSystem,
                32768);
    }

    private Recorded plain(RecorderModel model) throws IOException {
        return Recorded.plain(model, folder.resolve("plain-" + traces++));
    }

    private List<Habit> differing(RecorderModel one, RecorderModel other) throws IOException {
        return Comparison.of(plain(one).pattern(), null, plain(other).pattern(), null).habits().stream()
                .filter(compared -> compared.alike() == Alike.DIFFERENT)
                .map(Compared::habit)
                .toList();
    }

    @Test
    void tellsExactlyWhatDiffers() throws IOException {
        RecorderModel usual = usual(8, CHUNK, true, 5, "exfat");
        assertThat(differing(usual, usual(8, CHUNK, true, 5, "exfat"))).isEmpty();
        assertThat(differing(usual, usual(8, 2 * CHUNK, true, 5, "exfat"))).containsExactly(Habit.CHUNK);
        assertThat(differing(usual, usual(8, CHUNK, false, 5, "exfat"))).containsExactly(Habit.ARRIVAL);
        assertThat(differing(usual, usual(8, CHUNK, true, 9, "exfat"))).containsExactly(Habit.FLUSH);
        assertThat(differing(usual, usual(8, CHUNK, true, 0, "exfat"))).containsExactly(Habit.FLUSH);
        assertThat(differing(usual, usual(8, CHUNK, true, 5, "fat32"))).containsExactly(Habit.FILE_SYSTEM);
        assertThat(differing(usual, usual(6, CHUNK, true, 5, "exfat")))
                .containsExactly(Habit.FILES, Habit.TRACKS, Habit.DEMAND);
    }

    @Test
    void saysWhatItComparedInWords() throws IOException {
        Comparison compared = Comparison.of(
                plain(usual(8, CHUNK, true, 5, "exfat")).pattern(),
                null,
                plain(usual(1, CHUNK, true, 5, "exfat")).pattern(),
                null);
        assertThat(compared.lines())
                .contains("Differs: Files written at the same time: 8 here, 1 there.")
                .anyMatch(line -> line.startsWith("The same: ") && line.contains("Chunk"))
                .anyMatch(line -> line.startsWith("Cannot be told of both: ") && line.contains("Order of files"));
    }

    /** The same memory with all tracks and with half of them: as much longer, or the same. */
    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void tellsWhetherTracksShareABuffer(boolean shared) throws IOException {
        Recorded all = probed(8, shared);
        Recorded half = probed(4, shared);
        Comparison compared = Comparison.of(all.pattern(), all.buffer(), half.pattern(), half.buffer());
        assertThat(compared.buffers()).as("%s", compared).isNotNull().satisfies(both -> {
            assertThat(both.share()).isEqualTo(shared ? Share.SHARED : Share.PER_TRACK);
            assertThat(both.tracks()).isEqualTo(8);
            assertThat(both.otherTracks()).isEqualTo(4);
        });
        assertThat(compared.lines().toString())
                .contains(shared ? "All tracks share one" : "does not depend on the number of tracks");
    }

    @Test
    void aBufferOfTheSameNumberOfTracksShowsNothing() throws IOException {
        Recorded one = probed(4, false);
        assertThat(Comparison.of(one.pattern(), one.buffer(), one.pattern(), one.buffer())
                        .lines()
                        .toString())
                .contains("measure with half of them");
    }

    private Recorded probed(int tracks, boolean shared) throws IOException {
        return Recorded.probed(
                new RecorderModel(
                        tracks,
                        48_000,
                        3,
                        false,
                        CHUNK,
                        false,
                        1,
                        shared ? 24 : 3,
                        shared,
                        Overrun.DROPS,
                        5,
                        0,
                        0,
                        1L << 40,
                        "exfat",
                        32768),
                folder.resolve("probe-" + traces++));
    }
}
