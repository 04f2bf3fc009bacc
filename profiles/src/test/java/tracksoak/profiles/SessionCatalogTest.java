package tracksoak.profiles;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SessionCatalogTest {
    private static final Path SHIPPED = Path.of("sessions");

    @TempDir
    Path folder;

    @Test
    void shipsEveryFileOfTheSessionsFolderUnderItsOwnName() throws IOException {
        try (Stream<Path> files = Files.list(SHIPPED)) {
            List<String> names = files.map(f -> f.getFileName().toString().replace(".toml", ""))
                    .sorted()
                    .toList();
            assertThat(SessionCatalog.shipped().all().stream()
                            .map(Session::name)
                            .sorted())
                    .isEqualTo(names)
                    .hasSizeGreaterThanOrEqualTo(12);
        }
    }

    @Test
    void marksEveryShippedBufferAsAnAssumption() {
        assertThat(SessionCatalog.shipped().all()).allMatch(s -> s.bufferAssumed() && s.bufferS() == 2);
    }

    @Test
    void shipsTheSessionsPeopleAskFor() {
        List<Session> all = SessionCatalog.shipped().all();
        for (int tracks : new int[] {2, 8, 16, 24, 32, 64}) {
            assertThat(all)
                    .anyMatch(s -> s.kind() == SessionKind.RECORDING
                            && s.groups().equals(List.of(new TrackGroup(tracks, 48_000, SampleFormat.PCM_24))));
        }
        assertThat(all)
                .anyMatch(s -> s.groups().equals(List.of(new TrackGroup(32, 96_000, SampleFormat.PCM_24))))
                .anyMatch(s -> s.groups().equals(List.of(new TrackGroup(32, 48_000, SampleFormat.FLOAT_32))))
                .anyMatch(s -> s.layout() == FileLayout.INTERLEAVED)
                .anyMatch(s -> s.groups().size() > 1)
                .anyMatch(s -> s.kind() == SessionKind.PLAYBACK)
                .anyMatch(s -> s.kind() == SessionKind.MIXDOWN
                        && s.mix().stream().mapToInt(TrackGroup::tracks).sum() == 2)
                .anyMatch(s -> s.kind() == SessionKind.ARCHIVE);
    }

    @Test
    void sortsByKindThenByDemand() {
        assertThat(SessionCatalog.shipped().all())
                .isSortedAccordingTo(Comparator.comparing(Session::kind).thenComparingLong(Session::bytesPerSecond))
                .first()
                .extracting(Session::name)
                .isEqualTo("stick-mix-2");
    }

    @Test
    void namesTheSessionMostLikelyMeant() {
        assertThatThrownBy(() -> SessionCatalog.shipped().find("band32"))
                .isInstanceOf(ProfileException.class)
                .hasMessageContaining("did you mean band-32?")
                .hasMessageContaining("festival-64");
    }

    @Test
    void loadsTheGoodFilesAndReportsTheBadOne() throws IOException {
        write("good.toml", shipped("trio-8").replace("\"trio-8\"", "\"our-trio\""));
        write("bad.toml", shipped("trio-8").replace("writers = 1", "writers = 0"));
        write("notes.txt", "no profile at all");

        SessionCatalog catalog = SessionCatalog.of(folder);

        assertThat(catalog.find("our-trio").tracks()).isEqualTo(8);
        assertThat(catalog.origin("our-trio"))
                .contains(folder.resolve("good.toml").toString());
        assertThat(catalog.problems()).singleElement().satisfies(error -> {
            assertThat(error.file()).isEqualTo(folder.resolve("bad.toml").toString());
            assertThat(error.key()).isEqualTo("writers");
        });
        assertThatThrownBy(() -> catalog.find("our-duo")).hasMessageContaining("bad.toml");
        assertThat(SessionCatalog.find(folder, "our-trio")).isEqualTo(catalog.find("our-trio"));
        assertThatThrownBy(() -> SessionCatalog.find(folder, "our-duo")).hasMessageContaining("bad.toml");
    }

    @Test
    void refusesToShadowAShippedSession() throws IOException {
        write("mine.toml", shipped("trio-8").replace("writers = 1", "writers = 2"));

        SessionCatalog catalog = SessionCatalog.of(folder);

        assertThat(catalog.find("trio-8").writers()).isEqualTo(1);
        assertThat(SessionCatalog.find(folder, "trio-8")).isEqualTo(catalog.find("trio-8"));
        assertThat(catalog.problems())
                .singleElement()
                .extracting(ProfileError::sentence)
                .asString()
                .contains("mine.toml: name = trio-8: is the name of a shipped session already");
    }

    @Test
    void refusesTheSecondOfTwoFilesWithOneName() throws IOException {
        write("a.toml", shipped("trio-8").replace("\"trio-8\"", "\"our-trio\""));
        write("b.toml", shipped("trio-8").replace("\"trio-8\"", "\"our-trio\""));

        assertThat(SessionCatalog.of(folder).problems())
                .singleElement()
                .satisfies(e -> assertThat(e.problem()).contains("a.toml"))
                .extracting(ProfileError::file)
                .isEqualTo(folder.resolve("b.toml").toString());
    }

    @Test
    void takesAFolderThatIsNotThereAsEmptyAndAFileInItsPlaceAsAProblem() throws IOException {
        assertThat(SessionCatalog.of(folder.resolve("none")).problems()).isEmpty();
        write("file", "");
        assertThat(SessionCatalog.of(folder.resolve("file")).problems()).hasSize(1);
    }

    private void write(String name, String text) throws IOException {
        Files.writeString(folder.resolve(name), text);
    }

    private static String shipped(String name) {
        return new String(SessionCatalog.shippedText(name).orElseThrow(), UTF_8);
    }
}
