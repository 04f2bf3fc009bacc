package tracksoak.bench.page;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TypedTest {

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
        Give it with --buffer. | Give it with --buffer. Here: "Recorder's buffer, in s" in the form of a session, under Sessions.
        Add --file-systems ext4. | Add --file-systems ext4. Here: "File systems the recorder accepts" in the form of a session, under Sessions.
        Take another --chunk or --buffer. | Take another --chunk or --buffer. Here: "Chunk, the piece written at once" and "Recorder's buffer, in s" in the form of a session, under Sessions.
        Ask for less with --reserve. | Ask for less with --reserve. What begins with -- is typed in a terminal, after tracksoak qualify.
        Then: tracksoak clear PATH --yes, if it was not formatted. | Then: choose the drive under Test a drive and delete there what was left, if it was not formatted.
        To forget it: tracksoak clear PATH --keepsake X --yes. | To forget it: in a terminal, tracksoak clear PATH --keepsake X --yes.
        Its folder /media/tracksoak run is there. | Its folder /media/tracksoak run is there.
        Plug it in -- or do not. | Plug it in -- or do not.
        """)
    void saysWhereItIsDone(String typed, String clicked) {
        assertThat(Typed.placed(typed)).isEqualTo(clicked);
    }
}
