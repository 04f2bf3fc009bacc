package tracksoak.profiles.base;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

class AtomicFileTest {

    private static final byte[] OLD = "as it was".getBytes(UTF_8);
    private static final byte[] NEW = "as it is now".getBytes(UTF_8);

    @TempDir
    Path folder;

    @Test
    void writesAFileOverAnother() throws IOException {
        Path file = folder.resolve("a/b/notes.txt");
        AtomicFile.write(file, OLD);
        assertThat(file).hasBinaryContent(OLD);
        AtomicFile.write(file, NEW);
        assertThat(file).hasBinaryContent(NEW);
        AtomicFile.write(file, new byte[0]);
        assertThat(file).isEmptyFile();
        assertThat(names(folder.resolve("a/b"))).containsExactly("notes.txt");
    }

    @Test
    void isForOthersOnlyWhereThatIsSaid() throws IOException {
        assumeTrue(folder.getFileSystem().supportedFileAttributeViews().contains("posix"));
        Path mine = folder.resolve("record.json");
        Path page = folder.resolve("page.html");
        AtomicFile.write(mine, OLD);
        AtomicFile.writeForOthers(page, OLD);
        Path usual = Files.write(folder.resolve("usual.html"), OLD);
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(mine)))
                .isEqualTo("rw-------");
        assertThat(Files.getPosixFilePermissions(page)).isEqualTo(Files.getPosixFilePermissions(usual));
    }

    /** The system refuses to write on after 64 KiB, as it would on a full disk. */
    @Test
    @EnabledOnOs({OS.LINUX, OS.MAC})
    void aWriteThatFailsHalfwayLeavesTheOldFileAndNoHalfOne() throws Exception {
        Path file = Files.write(folder.resolve("record.json"), OLD);
        for (String how : List.of("write", "create")) {
            Path target = how.equals("write") ? file : folder.resolve("another.json");
            Process writer = new ProcessBuilder(
                            "sh",
                            "-c",
                            "ulimit -f 64 && exec \"$0\" \"$@\"",
                            Path.of(System.getProperty("java.home"), "bin", "java")
                                    .toString(),
                            "-Xshare:auto",
                            "-XX:-UsePerfData",
                            "-cp",
                            System.getProperty("java.class.path"),
                            TooMuch.class.getName(),
                            how,
                            target.toString())
                    .redirectErrorStream(true)
                    .start();
            String said = new String(writer.getInputStream().readAllBytes(), UTF_8);
            assertThat(writer.waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(said).startsWith("refused: ");
            assertThat(names(folder)).containsExactly("record.json");
            assertThat(file).hasBinaryContent(OLD);
        }
    }

    /** Run in a process of its own. */
    static final class TooMuch {
        public static void main(String[] args) {
            try {
                Path file = Path.of(args[1]);
                byte[] content = new byte[1 << 20];
                if (args[0].equals("write")) {
                    AtomicFile.write(file, content);
                } else {
                    AtomicFile.create(file, content);
                }
                System.out.println("written");
            } catch (IOException e) {
                System.out.println("refused: " + e.getMessage());
            }
        }
    }

    @Test
    void whatCannotBeReplacedStaysAndNothingHalfIsLeft() throws IOException {
        Path taken = Files.createDirectories(folder.resolve("taken"));
        Files.write(taken.resolve("inside"), OLD);
        assertThatThrownBy(() -> AtomicFile.write(taken, NEW)).isInstanceOf(IOException.class);
        assertThat(taken.resolve("inside")).hasBinaryContent(OLD);
        assertThat(names(folder)).containsExactly("taken");

        Path file = Files.write(folder.resolve("file"), OLD);
        assertThatThrownBy(() -> AtomicFile.write(file.resolve("below"), NEW)).isInstanceOf(IOException.class);
        assertThatThrownBy(() -> AtomicFile.write(Path.of("/"), NEW)).hasMessageContaining("not a file");
        assertThat(file).hasBinaryContent(OLD);
    }

    @Test
    void createNeverWritesOver() throws IOException {
        Path file = folder.resolve("key");
        assertThat(AtomicFile.create(file, OLD)).isTrue();
        assertThat(AtomicFile.create(file, NEW)).isFalse();
        assertThat(file).hasBinaryContent(OLD);
        assertThat(AtomicFile.create(Files.createDirectory(folder.resolve("taken")), NEW))
                .isFalse();
        assertThat(names(folder)).containsExactly("key", "taken");
    }

    @Test
    void ofManyWhoCreateAtOnceExactlyOneDoes() throws Exception {
        Path file = folder.resolve("key");
        ExecutorService crew = Executors.newFixedThreadPool(4);
        try {
            List<Callable<Boolean>> each = IntStream.range(0, 16)
                    .<Callable<Boolean>>mapToObj(i -> () -> AtomicFile.create(file, new byte[] {(byte) i}))
                    .toList();
            int created = 0;
            for (Future<Boolean> done : crew.invokeAll(each)) {
                created += done.get() ? 1 : 0;
            }
            assertThat(created).isEqualTo(1);
        } finally {
            crew.shutdownNow();
        }
        assertThat(file).hasSize(1);
        assertThat(names(folder)).containsExactly("key");
    }

    @Test
    void onlyItsOwnerMayReadIt() throws IOException {
        assumeTrue(folder.getFileSystem().supportedFileAttributeViews().contains("posix"));
        Path written = folder.resolve("written");
        AtomicFile.write(written, OLD);
        Path created = folder.resolve("created");
        assertThat(AtomicFile.create(created, OLD)).isTrue();
        Path open = Files.write(folder.resolve("open"), OLD);
        Files.setPosixFilePermissions(open, PosixFilePermissions.fromString("rw-r--r--"));
        AtomicFile.write(open, NEW);
        for (Path file : List.of(written, created, open)) {
            assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
                    .isEqualTo("rw-------");
        }
    }

    private static List<String> names(Path folder) throws IOException {
        try (Stream<Path> all = Files.list(folder)) {
            return all.map(path -> path.getFileName().toString()).sorted().toList();
        }
    }
}
