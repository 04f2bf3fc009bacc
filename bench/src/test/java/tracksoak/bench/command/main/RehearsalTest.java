package tracksoak.bench.command.main;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.jar.JarEntry;
import java.util.jar.JarOutputStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sqlite.util.LibraryLoaderUtil;

/**
 * The launcher's class archive can be made. Java 17 crashes over it where a lambda stands for one of picocli's interfaces in what is
 * rehearsed, and without the archive every short command starts in several times its time.
 */
class RehearsalTest {

    @TempDir
    Path folder;

    @Test
    void leavesAnArchive() throws Exception {
        Path archive = folder.resolve("start.jsa");
        Path log = folder.resolve("log.txt");
        Process process = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-XX:ArchiveClassesAtExit=" + archive,
                        "-XX:+UseSerialGC",
                        "-XX:TieredStopAtLevel=1",
                        "-XX:+SuppressFatalErrorMessage",
                        "-cp",
                        jars(),
                        Rehearsal.class.getName(),
                        folder.resolve("lib").toString())
                .redirectErrorStream(true)
                .redirectOutput(log.toFile())
                .start();
        assertThat(process.waitFor(2, TimeUnit.MINUTES)).isTrue();
        assertThat(process.exitValue()).as(Files.readString(log)).isZero();
        assertThat(archive).isRegularFile();
        assertThat(Files.size(archive)).isGreaterThan(1 << 20);
        try (Stream<Path> unpacked = Files.list(folder.resolve("lib"))) {
            // under the very name that the driver looks for
            assertThat(unpacked)
                    .singleElement()
                    .satisfies(library -> assertThat(library).hasFileName(LibraryLoaderUtil.getNativeLibName()))
                    .satisfies(library -> assertThat(Files.size(library)).isGreaterThan(1 << 18));
        }
    }

    /** The class path with folders packed into jars: an archive takes its classes from nothing else. */
    private String jars() throws IOException {
        List<String> jars = new ArrayList<>();
        for (String entry : System.getProperty("java.class.path").split(File.pathSeparator, -1)) {
            Path path = Path.of(entry);
            jars.add(Files.isDirectory(path) ? packed(path, jars.size()) : entry);
        }
        return String.join(File.pathSeparator, jars);
    }

    private String packed(Path classes, int number) throws IOException {
        Path jar = folder.resolve(number + ".jar");
        try (OutputStream file = Files.newOutputStream(jar);
                JarOutputStream out = new JarOutputStream(file);
                Stream<Path> found = Files.walk(classes)) {
            for (Path path : found.filter(each -> !each.equals(classes)).toList()) {
                String name = classes.relativize(path).toString().replace(File.separatorChar, '/');
                out.putNextEntry(new JarEntry(Files.isDirectory(path) ? name + "/" : name));
                if (!Files.isDirectory(path)) {
                    Files.copy(path, out);
                }
                out.closeEntry();
            }
        }
        return jar.toString();
    }
}
