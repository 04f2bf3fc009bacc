package tracksoak.bench.standin.probe;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.assertj.core.data.Offset;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.bench.standin.learn.BufferFound;
import tracksoak.bench.standin.learn.LearnedSession;
import tracksoak.bench.standin.learn.Pattern;
import tracksoak.bench.standin.model.RecorderModel;
import tracksoak.bench.standin.model.RecorderModel.Overrun;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.RecorderBuffer;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.SessionReader;
import tracksoak.profiles.base.Problem;

/**
 * Recorders of which everything is known, on virtual time: what is learnt of them must be what they are. {@value #SEEDS} in each
 * build, {@value #MANY} at night.
 */
class KnownRecordersTest {

    private static final int SEEDS = 25;
    private static final int MANY = 800;

    @TempDir
    Path folder;

    @Test
    void whatIsLearntIsWhatTheyAre() throws IOException {
        all(0, SEEDS);
    }

    /** Stops come more often than its headers are written, so that hardly one of those pauses is without one. */
    @Test
    void howOftenHeadersAreWrittenIsToldBetweenManyStopsToo() throws IOException {
        RecorderModel model = new RecorderModel(
                6,
                48_000,
                3,
                false,
                32 << 10,
                false,
                1,
                6,
                false,
                Overrun.DROPS,
                5,
                10,
                0,
                Long.MAX_VALUE,
                "fat32",
                32 << 10);

        Pattern pattern = Recorded.probed(model, folder.resolve("trace")).pattern();

        assertThat(pattern.headerS()).as("%s", pattern.all()).isPresent();
        assertThat(pattern.headerS().orElse(0)).isCloseTo(10, Offset.offset(0.1));
        assertThat(pattern.flushS().orElse(0)).isCloseTo(5, Offset.offset(0.1));
    }

    @Test
    @Tag("nightly")
    void soOfManyMore() throws IOException {
        all(SEEDS, SEEDS + MANY);
    }

    private void all(int from, int to) throws IOException {
        List<String> wrong = new ArrayList<>();
        for (int seed = from; seed < to; seed++) {
            try {
                tried(seed);
            } catch (AssertionError | Problem failed) {
                wrong.add(String.valueOf(failed.getMessage()));
            }
        }
        assertThat(wrong).as("%s of %s", wrong.size(), to - from).isEmpty();
    }

    static RecorderModel model(long seed) {
        RecorderModel model = seed % 2 == 0 ? usual(seed) : unusual(seed);
        return seed % 5 == 4 && model.onOverrun() == Overrun.DROPS ? cutting(model) : model;
    }

    /** The same, but of what finds no place it loses no more than that: less than the trace can tell, in a stop that is a little long. */
    private static RecorderModel cutting(RecorderModel model) {
        return new RecorderModel(
                model.tracks(),
                model.sampleRateHz(),
                model.bytesPerSample(),
                model.interleaved(),
                model.chunkBytes(),
                model.staggered(),
                model.writers(),
                model.bufferChunks(),
                model.shared(),
                Overrun.CUTS,
                model.flushS(),
                model.headerS(),
                model.advanceBytes(),
                model.fileLimitBytes(),
                model.fileSystem(),
                model.clusterBytes());
    }

    /** Any number of tracks, chunks of any size, small and large buffers, headers of many files written every second. */
    private static RecorderModel unusual(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        boolean interleaved = random.nextInt(4) == 0;
        int tracks = 1 + random.nextInt(random.nextInt(4) == 0 ? 64 : 20);
        int sampleRate = new int[] {44_100, 48_000, 88_200, 96_000, 192_000}[random.nextInt(5)];
        int bytes = 2 + random.nextInt(3);
        long bytesPerSecond = (long) sampleRate * bytes * (interleaved ? tracks : 1);
        int chunk = 4096 * (1 + random.nextInt(random.nextInt(3) == 0 ? 256 : 48));
        chunk = (int) Math.max(bytesPerSecond / 50, Math.min(2 * bytesPerSecond, chunk)) / 4096 * 4096 + 4096;
        double chunkS = (double) chunk / bytesPerSecond;
        int streams = interleaved ? 1 : tracks;
        boolean shared = random.nextInt(3) == 0;
        int chunks = (int) Math.max(2, Math.round(random.nextDouble(0.3, 8) / chunkS));
        return new RecorderModel(
                tracks,
                sampleRate,
                bytes,
                interleaved,
                chunk,
                random.nextInt(3) == 0,
                random.nextInt(3) == 0 ? random.nextInt(2, 9) : 1,
                shared ? chunks * streams + random.nextInt(streams) : chunks,
                shared,
                random.nextInt(4) == 0 ? Overrun.ENDS_THE_TAKE : Overrun.DROPS,
                new double[] {0, 2, 5, 10, 30}[random.nextInt(5)],
                new double[] {0, 1, 3, 7, 20}[random.nextInt(5)],
                random.nextInt(3) == 0 ? 1L << random.nextInt(20, 23) : 0,
                Long.MAX_VALUE,
                "exfat",
                4096 << random.nextInt(2, 6));
    }

    private static RecorderModel usual(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        boolean interleaved = random.nextInt(5) == 0;
        int tracks = new int[] {1, 2, 4, 8, 12, 16, 24, 32}[random.nextInt(8)];
        int sampleRate = new int[] {44_100, 48_000, 96_000}[random.nextInt(3)];
        int bytes = random.nextInt(3) == 0 ? 4 : 3;
        int chunk = 4096 << random.nextInt(2, 7);
        double chunkS = (double) chunk / ((long) sampleRate * bytes * (interleaved ? tracks : 1));
        int streams = interleaved ? 1 : tracks;
        boolean shared = random.nextInt(3) == 0;
        int chunks = (int) Math.max(2, Math.round(random.nextDouble(0.6, 4) / chunkS));
        return new RecorderModel(
                tracks,
                sampleRate,
                bytes,
                interleaved,
                chunk,
                random.nextInt(3) == 0,
                random.nextInt(3) == 0 ? random.nextInt(2, 5) : 1,
                shared ? chunks * streams : chunks,
                shared,
                random.nextInt(4) == 0 ? Overrun.ENDS_THE_TAKE : Overrun.DROPS,
                new double[] {0, 5, 10}[random.nextInt(3)],
                new double[] {0, 3, 7}[random.nextInt(3)],
                random.nextInt(3) == 0 ? 4 << 20 : 0,
                Long.MAX_VALUE,
                random.nextBoolean() ? "fat32" : "exfat",
                random.nextBoolean() ? 32 << 10 : 64 << 10);
    }

    private void tried(long seed) throws IOException {
        RecorderModel model = model(seed);
        Path trace = folder.resolve("trace-" + seed);
        Recorded probed = Recorded.probed(model, trace);
        BufferFound found = probed.buffer();
        assertThat(probed.pattern().writers())
                .as("writers of seed %s: %s", seed, model)
                .isBetween(model.staggered() ? 1 : Math.min(model.writers(), model.streams()), model.writers());
        betweenStops(model, probed.pattern(), seed);
        Files.delete(trace);
        Pattern pattern = Recorded.plain(model, trace).pattern();
        String of = "seed " + seed + ": " + model + "\n" + found + "\n" + pattern.all();
        double within = Math.max(0.05 * model.bufferS(), model.chunkS());
        assertThat(found.heldS().orElse(0)).as(of).isBetween(usableS(model) - within, mostS(model));
        assertThat(Math.min(found.lostS().orElse(1e9), found.doubtS().orElse(1e9)))
                .as(of)
                .isBetween(model.bufferS() - within, model.bufferS() + within);
        assertThat(found.measured()).as(of).isTrue();
        if (model.onOverrun() != Overrun.CUTS || found.lostS().isPresent()) {
            assertThat(found.onOverrun())
                    .as(of)
                    .isEqualTo(
                            model.onOverrun() == Overrun.ENDS_THE_TAKE ? "ends the take" : "drops audio and goes on");
        }
        written(model, found, pattern, of);
        learnt(model, pattern, of);
        Files.delete(trace);
    }

    /** No more audio than that was ever held: places that are not enough for all files that ask for one at once help none of them. */
    private static double mostS(RecorderModel model) {
        boolean inStep = model.shared() && !model.staggered() && model.onOverrun() != Overrun.CUTS;
        int whole = model.bufferChunks() / model.streams();
        return inStep ? whole * model.chunkS() : model.bufferS();
    }

    /** A chunk that has begun takes a place of its own: of files that begin theirs in turn, half a chunk each is not there yet. */
    private static double usableS(RecorderModel model) {
        boolean outOfStep = model.staggered() || model.onOverrun() == Overrun.CUTS;
        return mostS(model) - (model.shared() && outOfStep ? model.chunkS() / 2 : 0);
    }

    /** No session says that more is held than is. */
    private void written(RecorderModel model, BufferFound found, Pattern pattern, String of) {
        String text =
                LearnedSession.text(pattern, found, SessionCatalog.of(folder).find("band-32"), "known");
        Session session = SessionReader.read(text, "known");
        assertThat(session.bufferAssumed()).as(of).isFalse();
        assertThat(session.bufferS()).as(of).isLessThanOrEqualTo(mostS(model));
        assertThat(RecorderBuffer.measured(session)).as(of).isPresent();
    }

    /** What stops hold up is told rightly, or not at all. */
    private static void betweenStops(RecorderModel model, Pattern pattern, long seed) {
        String of = "while stopped, seed " + seed + ": " + model + "\n" + pattern.all();
        pattern.headerS().ifPresent(s -> assertThat(s).as(of).isCloseTo(model.headerS(), Offset.offset(0.5)));
        pattern.flushS().ifPresent(s -> assertThat(s).as(of).isCloseTo(model.flushS(), Offset.offset(0.5)));
    }

    private static void learnt(RecorderModel model, Pattern pattern, String of) {
        assertThat(pattern.chunkBytes()).as(of).hasValue(model.chunkBytes());
        assertThat(pattern.streams()).as(of).isEqualTo(model.streams());
        assertThat(pattern.tracks()).as(of).hasValue(model.tracks());
        assertThat(pattern.format().map(WaveFormat::sampleRateHz)).as(of).hasValue(model.sampleRateHz());
        assertThat(pattern.format().map(WaveFormat::bytesPerSample)).as(of).hasValue(model.bytesPerSample());
        assertThat(pattern.fileSystem()).as(of).isEqualTo(model.fileSystem());
        assertThat(pattern.bytesPerSecond())
                .as(of)
                .isCloseTo((double) model.streams() * model.streamBytesPerSecond(), Percentage.withPercentage(0.2));
        if (model.streams() > 1) {
            assertThat(pattern.arrival()).as(of).hasValue(model.staggered() ? Arrival.STAGGERED : Arrival.BURST);
            assertThat(pattern.sameOrder()).as(of).hasValue(true);
            assertThat(pattern.advanceBytes()).as(of).hasValue(model.advanceBytes());
        }
        assertThat(pattern.flushS().orElse(-1)).as(of).isCloseTo(model.flushS(), Offset.offset(0.5));
        assertThat(pattern.headerS().orElse(-1)).as(of).isCloseTo(model.headerS(), Offset.offset(0.5));
    }
}
