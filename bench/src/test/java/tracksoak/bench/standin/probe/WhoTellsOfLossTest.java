package tracksoak.bench.standin.probe;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tracksoak.bench.recording.Samples;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.bench.standin.learn.BufferFound;
import tracksoak.bench.standin.learn.BufferWords;
import tracksoak.bench.standin.learn.LearnedSession;
import tracksoak.bench.standin.learn.Tried;
import tracksoak.bench.standin.model.ModelRecorder;
import tracksoak.bench.standin.model.RecorderModel;
import tracksoak.bench.standin.model.RecorderModel.Overrun;
import tracksoak.bench.timecode.TestSignal;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.SessionReader;

/** Whether audio was lost is told by the recording first, then by the trace, then by a person. */
class WhoTellsOfLossTest {

    private static final int RATE = 44_100;
    private static final int CHUNK = 32 << 10;
    private static final double LONGEST_S = 4;

    @TempDir
    Path folder;

    /** One track of 16 bits that holds four chunks, 1.49 s. */
    private static RecorderModel model(Overrun overrun) {
        return new RecorderModel(
                1, RATE, 2, false, CHUNK, false, 1, 4, false, overrun, 5, 0, 0, Long.MAX_VALUE, "exfat", 32768);
    }

    private BufferFound probed(Overrun overrun, ModelRecorder.Audio audio, Recorded.@Nullable Person person)
            throws IOException {
        return Recorded.probed(model(overrun), folder.resolve("trace"), LONGEST_S, audio, person)
                .buffer();
    }

    /** The test signal, behind a header of 44 bytes. */
    private static byte[] signal(int stream, long chunk) {
        float[] values = new float[CHUNK / 2];
        new TestSignal(RATE).fill((chunk * CHUNK - 44) / 2, values, values.length);
        ByteBuffer bytes = ByteBuffer.allocate(CHUNK).order(ByteOrder.LITTLE_ENDIAN);
        Samples.store(values, values.length, new WaveFormat(1, RATE, false, 2, 16), bytes);
        return bytes.array();
    }

    private static byte @Nullable [] anything(int stream, long chunk) {
        return null;
    }

    private static boolean truly(Tried one, Overrun overrun) {
        return one.backlogS() > model(overrun).bufferS();
    }

    @ParameterizedTest
    @EnumSource(
            value = Overrun.class,
            mode = EnumSource.Mode.EXCLUDE,
            names = {"ENDS_THE_TAKE", "CUTS"})
    void theTestSignalInTheRecordingComesFirst(Overrun overrun) throws IOException {
        BufferFound found = probed(overrun, WhoTellsOfLossTest::signal, null);
        assertThat(found.tried()).isNotEmpty().allSatisfy(one -> {
            assertThat(one.by()).isEqualTo("recording");
            assertThat(one.lost()).as("%s", one).isEqualTo(truly(one, overrun));
        });
        assertThat(found.measured()).isTrue();
        assertThat(found.onOverrun())
                .isEqualTo(
                        overrun == Overrun.PADS
                                ? "puts something else in the place of audio and goes on"
                                : "drops audio and goes on");
        double worstS = found.tried().stream().mapToDouble(Tried::lostS).max().orElse(0);
        double chunks = worstS / model(overrun).chunkS();
        assertThat(chunks).isGreaterThan(0.9).isCloseTo(Math.rint(chunks), within(0.01));
    }

    @Test
    void theTestSignalIsTrustedMoreThanAPerson() throws IOException {
        BufferFound found = probed(Overrun.PADS, WhoTellsOfLossTest::signal, truly -> !truly);
        assertThat(found.tried()).isNotEmpty().allSatisfy(one -> {
            assertThat(one.by()).isEqualTo("recording");
            assertThat(one.lost()).as("%s", one).isEqualTo(truly(one, Overrun.PADS));
        });
    }

    @Test
    void chunksThatAreMissingAreTrustedMoreThanAPerson() throws IOException {
        BufferFound found = probed(Overrun.DROPS, WhoTellsOfLossTest::anything, truly -> false);
        assertThat(found.tried()).isNotEmpty().allSatisfy(one -> {
            assertThat(one.by()).isEqualTo("trace");
            assertThat(one.lost()).as("%s", one).isEqualTo(truly(one, Overrun.DROPS));
        });
    }

    @Test
    void aPersonTellsWhereTheTraceShowsNothing() throws IOException {
        BufferFound found = probed(Overrun.PADS, WhoTellsOfLossTest::anything, truly -> truly);
        assertThat(found.tried())
                .isNotEmpty()
                .allSatisfy(one -> assertThat(one.lost()).as("%s", one).isEqualTo(truly(one, Overrun.PADS)));
        assertThat(found.tried()).filteredOn(Tried::lost).extracting(Tried::by).containsOnly("person");
        assertThat(found.measured()).isTrue();
        assertThat(String.join(" ", BufferWords.lines(found)))
                .contains("On overrun the recorder puts something else in the place of audio and goes on.")
                .contains("audio lost (told by the person)");
    }

    /** It would be called endless: what is not shown is never written down as measured. */
    @Test
    void aRecorderThatPadsAndIsNotListenedToHasNoMeasuredBuffer() throws IOException {
        Recorded recorded = Recorded.probed(
                model(Overrun.PADS), folder.resolve("trace"), LONGEST_S, WhoTellsOfLossTest::anything, null);
        assertThat(recorded.buffer().lostS()).isEmpty();
        assertThat(recorded.buffer().measured()).isFalse();
        assertThat(String.join(" ", BufferWords.lines(recorded.buffer()))).contains("That is no measured buffer");
        Session like = SessionCatalog.of(folder).find("band-32");
        String text = LearnedSession.text(recorded.pattern(), recorded.buffer(), like, "padding");
        assertThat(SessionReader.read(text, "padding").bufferAssumed()).isTrue();
    }
}
