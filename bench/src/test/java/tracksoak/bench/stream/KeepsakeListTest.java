package tracksoak.bench.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class KeepsakeListTest {

    private static final String RUN = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f";
    private static final WrittenFile SMALL = new WrittenFile("take-1-track-0001-part-001.soak", 0, 1, 0, 10, 4096);
    private static final WrittenFile LARGE = new WrittenFile("fill-track-0002-part-001.soak", 1, 2, 7, 1000, 4096);
    private static final WrittenFile EMPTY = new WrittenFile("fill-track-0003-part-001.soak", 2, 2, 7, 0, 4096);

    @Test
    void whatIsWrittenReadsBackEqual() {
        KeepsakeList list = new KeepsakeList(RUN, "2026-02-14T18:50:00Z", List.of(SMALL, LARGE));
        assertThat(KeepsakeList.parse(list.text())).contains(list);
        assertThat(list.bytes()).isEqualTo(1010 * 4096L);
        assertThat(list.text()).contains("never play them", "may be deleted at any time");
    }

    @Test
    void wholeFilesAreChosenUntilEnoughAreTogether() {
        List<WrittenFile> all = List.of(LARGE, SMALL, EMPTY);
        assertThat(KeepsakeList.chosen(RUN, "2026-02-14T18:50:00Z", all, 40_960).files())
                .containsExactly(SMALL);
        assertThat(KeepsakeList.chosen(RUN, "2026-02-14T18:50:00Z", all, 40_961).files())
                .containsExactly(SMALL, LARGE);
        assertThat(KeepsakeList.chosen(RUN, "2026-02-14T18:50:00Z", all, 1L << 40)
                        .files())
                .containsExactly(SMALL, LARGE);
    }

    /** The note lies on a drive that went through many hands. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            tracksoak keepsake 1 | tracksoak keepsake 2
            take-1-track | ../take-1-track
            take-1-track | /etc/passwd-track
            .soak 0 1 0 10 4096 | .soak 0 1 0 10
            .soak 0 1 0 10 4096 | .soak 0 1 0 -10 4096
            .soak 0 1 0 10 4096 | .soak 0 1 0 99999999999999 4096
            .soak 0 1 0 10 4096 | .soak 0 1 0 10 4095
            .soak 0 1 0 10 4096 | .soak 0 1 0 10 99999999999999999999
            2026-02-14T18:50:00Z | yesterday
            run 017f22e2 | run ../../etc
            """)
    void aNoteThatIsNoneIsNone(String from, String to) {
        String text = new KeepsakeList(RUN, "2026-02-14T18:50:00Z", List.of(SMALL)).text();
        assertThat(text).contains(from);
        assertThat(KeepsakeList.parse(text.replace(from, to))).isEmpty();
    }

    @Test
    void endlessOrDoubledNotesAreNone() {
        String text = new KeepsakeList(RUN, "2026-02-14T18:50:00Z", List.of(SMALL)).text();
        assertThat(KeepsakeList.parse(text + text.substring(text.indexOf("file "))))
                .isEmpty();
        assertThat(KeepsakeList.parse(text + "x".repeat(KeepsakeList.LONGEST))).isEmpty();
    }
}
