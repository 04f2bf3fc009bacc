package tracksoak.bench.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.stream.KeepsakeList;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.profiles.base.Problem;

class KeepsakeShelfTest {

    private static final String RUN = "0190a5b0-0000-7000-8000-000000000001";

    @TempDir
    Path folder;

    private KeepsakeShelf shelf;

    @BeforeEach
    void keepOne() throws IOException {
        shelf = new KeepsakeShelf(folder.resolve("keepsakes"));
        KeepsakeList list = KeepsakeList.chosen(
                RUN, "2026-05-17T20:00:00Z", List.of(new WrittenFile("take-1.soak", 0, 0, 0, 10, 4096)), 1);
        shelf.keep(list, TestRooms.stick("/", "Barley", "Wagon").facts(), "W-01");
    }

    @Test
    void whatIsKeptIsFoundAgainAndForgotten() throws IOException {
        assertThat(shelf.read().unreadable()).isEmpty();
        assertThat(shelf.read().entries()).singleElement().satisfies(entry -> {
            assertThat(entry.list().runId()).isEqualTo(RUN);
            assertThat(entry.drive().model()).isEqualTo("Wagon");
            assertThat(entry.tag()).isEqualTo("W-01");
        });
        assertThat(shelf.forget(RUN)).isTrue();
        assertThat(shelf.read().entries()).isEmpty();
    }

    /** What is damaged, too large or no plain file is named, one by one, and hides none of the others. */
    @Test
    void everyFileThatCannotBeReadIsNamed() throws IOException {
        Path keepsakes = shelf.folder();
        Files.writeString(keepsakes.resolve("half.txt"), "maker=Barley\n");
        Files.writeString(keepsakes.resolve("size.txt"), "size=many\n--\n");
        Files.createDirectory(keepsakes.resolve("folder.txt"));
        Files.createSymbolicLink(keepsakes.resolve("link.txt"), keepsakes.resolve(RUN + ".txt"));
        Files.write(keepsakes.resolve("large.txt"), new byte[2 * KeepsakeList.LONGEST + 1]);
        Files.writeString(keepsakes.resolve("other.json"), "{}");
        KeepsakeShelf.Contents contents = shelf.read();
        assertThat(contents.entries()).hasSize(1);
        assertThat(contents.unreadable()).hasSize(5).allSatisfy(problem -> {
            assertThat(problem.kind()).isEqualTo(Problem.Kind.CORRUPT);
            assertThat(problem.todo()).isNotEmpty();
        });
        assertThat(contents.unreadable().stream().map(Problem::told).sorted().toList())
                .satisfiesExactly(
                        told -> assertThat(told).contains("folder.txt", "no plain file"),
                        told -> assertThat(told).contains("half.txt", "damaged"),
                        told -> assertThat(told).contains("large.txt", "larger than"),
                        told -> assertThat(told).contains("link.txt", "no plain file"),
                        told -> assertThat(told).contains("size.txt", "damaged"));
    }

    @Test
    void anEmptyShelfIsInOrder() {
        KeepsakeShelf.Contents contents = new KeepsakeShelf(folder.resolve("none")).read();
        assertThat(contents.entries()).isEmpty();
        assertThat(contents.unreadable()).isEmpty();
    }
}
