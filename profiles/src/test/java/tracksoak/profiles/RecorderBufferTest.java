package tracksoak.profiles;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RecorderBufferTest {

    private static final String HOW =
            "on 2026-11-28 with a stand-in: held 1.804 s of audio 4 times, lost audio at 1.822 s;"
                    + " 14 stops in all; trace SHA-256 0123456789abcdef";
    private static final String SENTENCE = RecorderBuffer.sentence(
            1_795_867_200_000L,
            "held 1.804 s of audio 4 times, lost audio at 1.822 s",
            14,
            "0123456789abcdef".repeat(4));

    @TempDir
    Path folder;

    private Session.Builder measured() {
        return SessionCatalog.of(folder)
                .find("band-32")
                .but()
                .bufferS(1.804)
                .bufferAssumed(false)
                .about("Our desk. " + SENTENCE + " Measured before the tour.");
    }

    @Test
    void howItWasMeasuredGoesWithTheSession() {
        Session session = measured().build();
        assertThat(RecorderBuffer.measured(session)).hasValue(HOW);
        assertThat(RecorderBuffer.words(session)).isEqualTo("1.8 s per track, measured " + HOW);
        Session read = SessionReader.read(SessionToml.write(session), "our desk");
        assertThat(RecorderBuffer.measured(read)).hasValue(HOW);
    }

    @Test
    void anotherBufferThanWasHeldIsNotCalledMeasured() {
        assertThat(RecorderBuffer.measured(measured().bufferS(2).build())).isEmpty();
        assertThat(RecorderBuffer.measured(measured().bufferAssumed(true).build()))
                .isEmpty();
        assertThat(RecorderBuffer.words(measured().bufferAssumed(true).build()))
                .isEqualTo("1.8 s per track, a guess: nobody has measured it");
        assertThat(RecorderBuffer.words(measured().about("Our desk.").build())).isEqualTo("1.8 s per track");
    }
}
