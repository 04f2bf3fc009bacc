package tracksoak.bench.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.jar.Attributes;
import java.util.jar.JarEntry;
import java.util.jar.JarOutputStream;
import java.util.jar.Manifest;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The launcher in a house of its own, with a jar that tells how it was started and a Maven that does as it is told. */
@DisabledOnOs(
        value = OS.WINDOWS,
        disabledReason = "the launcher is a shell script; on Windows the jar is started itself")
class LauncherTest {

    private static final Path SCRIPT = Path.of("..", "tracksoak");
    private static final FileTime OLD = FileTime.from(Instant.parse("2020-01-01T00:00:00Z"));

    @TempDir
    Path folder;

    private String javaHome = System.getProperty("java.home");
    private Path house;
    private Path jar;
    private Path tools;

    @BeforeEach
    void build() throws IOException {
        house = Files.createDirectories(folder.resolve("a house"));
        Files.copy(SCRIPT, house.resolve("tracksoak"), StandardCopyOption.COPY_ATTRIBUTES);
        jar = house.resolve("bench/target/tracksoak-bench-1.0.0-SNAPSHOT-all.jar");
        tools = Files.createDirectories(folder.resolve("tools"));
        Files.createDirectories(house.resolve("bench/src/main"));
        Files.writeString(house.resolve("pom.xml"), "<project/>");
    }

    /** Started instead of the bench. */
    static final class Teller {
        private Teller() {}

        public static void main(String[] args) {
            System.out.println("flags " + ManagementFactory.getRuntimeMXBean().getInputArguments());
            System.out.println("words " + List.of(args));
            System.out.println("names " + System.getProperty("sun.jnu.encoding"));
        }
    }

    private static void putJar(Path at) throws IOException {
        Files.createDirectories(at.getParent());
        Manifest manifest = new Manifest();
        manifest.getMainAttributes().put(Attributes.Name.MANIFEST_VERSION, "1.0");
        manifest.getMainAttributes().put(Attributes.Name.MAIN_CLASS, Teller.class.getName());
        String name = Teller.class.getName().replace('.', '/') + ".class";
        try (OutputStream file = Files.newOutputStream(at);
                JarOutputStream out = new JarOutputStream(file, manifest);
                InputStream code = Teller.class.getClassLoader().getResourceAsStream(name)) {
            out.putNextEntry(new JarEntry(name));
            out.write(code.readAllBytes());
            out.closeEntry();
        }
    }

    private void maven(String script) throws IOException {
        tool("mvn", script);
    }

    private void tool(String name, String script) throws IOException {
        Path tool = Files.writeString(tools.resolve(name), "#!/bin/sh\n" + script + "\n");
        Files.setPosixFilePermissions(tool, PosixFilePermissions.fromString("rwxr-xr-x"));
    }

    /** A search path with the few commands the launcher needs, and Maven only if a test has put one into {@code tools}. */
    private String searchPath() throws IOException {
        for (String tool : List.of(
                "sh",
                "dirname",
                "readlink",
                "find",
                "head",
                "sed",
                "tail",
                "touch",
                "rm",
                "mkdir",
                "mv",
                "ls",
                "cat",
                "sort",
                "wc",
                "cp",
                "locale",
                "cksum")) {
            for (String place : List.of("/usr/bin", "/bin")) {
                Path real = Path.of(place, tool);
                if (!Files.exists(tools.resolve(tool)) && Files.exists(real)) {
                    tool(tool, "exec " + real + " \"$@\"");
                }
            }
        }
        return tools.toString();
    }

    private Typed start(Path script, String... words) throws IOException, InterruptedException {
        return start(Map.of(), script, words);
    }

    private Typed start(Map<String, String> more, Path script, String... words)
            throws IOException, InterruptedException {
        List<String> line = new ArrayList<>(List.of(script.toString()));
        line.addAll(List.of(words));
        Path out = folder.resolve("out.txt");
        Path err = folder.resolve("err.txt");
        ProcessBuilder builder = new ProcessBuilder(line)
                .directory(folder.toFile())
                .redirectOutput(out.toFile())
                .redirectError(err.toFile());
        Map<String, String> environment = builder.environment();
        environment.clear();
        environment.put("PATH", searchPath());
        environment.put("JAVA_HOME", javaHome);
        environment.put("XDG_CACHE_HOME", folder.resolve("cache").toString());
        environment.putAll(more);
        Process process = builder.start();
        assertThat(process.waitFor(2, TimeUnit.MINUTES)).isTrue();
        return new Typed(
                process.exitValue(),
                Files.readString(out, StandardCharsets.UTF_8),
                Files.readString(err, StandardCharsets.UTF_8));
    }

    @Test
    void handsEveryWordOnThroughLinksAndSpaces() throws Exception {
        putJar(jar);
        Path link = Files.createSymbolicLink(folder.resolve("link"), Path.of("a house", "tracksoak"));
        Path chain = Files.createSymbolicLink(folder.resolve("chain of links"), link);
        Typed typed = start(chain, "drives", "two words", "", "*", "$HOME");
        assertThat(typed.code()).isZero();
        assertThat(typed.out()).contains("words [drives, two words, , *, $HOME]");
        assertThat(typed.err()).isEmpty();
    }

    /** As over ssh, which brings along the language of another computer. */
    @ParameterizedTest
    @ValueSource(strings = {"", "C", "de_DE.UTF-8", "no_such_language.UTF-8", "C.UTF-8"})
    void namesOfFilesAreUnderstoodInWhateverLanguageIsNamed(String language) throws Exception {
        putJar(jar);
        assertThat(start(Map.of("LANG", language), house.resolve("tracksoak"), "drives")
                        .out())
                .contains("names UTF-8");
    }

    @ParameterizedTest
    @ValueSource(strings = {"qualify", "requalify", "climb", "drill", "demo"})
    void measuringGetsAFixedHeapAndTheFullCompiler(String command) throws Exception {
        putJar(jar);
        assertThat(start(house.resolve("tracksoak"), command).out())
                .contains("-Xms112m", "-Xmx112m", "-XX:+AlwaysPreTouch", "-XX:+UseSerialGC")
                .doesNotContain("TieredStopAtLevel");
    }

    @Test
    void aShortCommandGetsAQuickStart() throws Exception {
        putJar(jar);
        assertThat(start(house.resolve("tracksoak"), "drives").out())
                .contains("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC")
                .doesNotContain("AlwaysPreTouch");
    }

    @Test
    void anArchiveThatCannotBeMadeIsNotTriedAgain() throws Exception {
        putJar(jar); // holds nothing to rehearse
        Path log = folder.resolve("started.txt");
        Path home = folder.resolve("java");
        Files.createDirectories(home.resolve("bin"));
        String real = System.getProperty("java.home");
        Files.copy(Path.of(real, "release"), home.resolve("release"));
        Path java = Files.writeString(
                home.resolve("bin/java"), "#!/bin/sh\necho \"$@\" >>" + log + "\nexec " + real + "/bin/java \"$@\"\n");
        Files.setPosixFilePermissions(java, PosixFilePermissions.fromString("rwxr-xr-x"));
        javaHome = home.toString();
        for (int i = 0; i < 3; i++) {
            assertThat(start(house.resolve("tracksoak"), "drives").out()).contains("words [drives]");
        }
        assertThat(Files.readAllLines(log).stream().filter(line -> line.contains("ArchiveClassesAtExit")))
                .hasSize(1);
        assertThat(Files.readAllLines(log)).hasSize(4);
    }

    @Test
    void buildsOnFirstUseAndSaysSo() throws Exception {
        Path built = folder.resolve("built.jar");
        putJar(built);
        maven("cp=" + built + "; cat \"$cp\" > \"" + jar + "\"");
        Typed typed = start(house.resolve("tracksoak"), "drives");
        assertThat(typed.code()).as(typed.err()).isZero();
        assertThat(typed.err()).contains("building, because this is the first use", "built");
        assertThat(typed.out()).contains("words [drives]");
        assertThat(start(house.resolve("tracksoak"), "drives").err()).isEmpty();
    }

    @Test
    void buildsAgainWhenASourceIsNewer() throws Exception {
        putJar(jar);
        Files.setLastModifiedTime(jar, OLD);
        maven("exit 0");
        assertThat(start(house.resolve("tracksoak"), "drives").err()).contains("the sources have changed");
        assertThat(start(house.resolve("tracksoak"), "drives").err()).isEmpty();
    }

    /** A copied folder has times of its own; what counts is whether anything in it is another. */
    @Test
    void buildsAgainByContentAndNotByTime() throws Exception {
        Path source = Files.writeString(house.resolve("bench/src/main/One.java"), "class One {}");
        Path made = folder.resolve("built.jar");
        putJar(made);
        maven("cat \"" + made + "\" > \"" + jar + "\"");
        assertThat(start(house.resolve("tracksoak"), "drives").err()).contains("first use");
        Files.setLastModifiedTime(jar, OLD);
        assertThat(start(house.resolve("tracksoak"), "drives").err()).isEmpty();
        Path other = house.resolveSibling("a copy");
        copy(house, other);
        Path theirs = other.resolve("bench/target").resolve(jar.getFileName());
        Files.setLastModifiedTime(theirs, OLD);
        assertThat(start(other.resolve("tracksoak"), "drives").err()).isEmpty();
        FileTime then = Files.getLastModifiedTime(source);
        Files.writeString(source, "class Two {}");
        Files.setLastModifiedTime(source, then);
        assertThat(start(house.resolve("tracksoak"), "drives").err()).contains("the sources have changed");
        assertThat(start(house.resolve("tracksoak"), "drives").err()).isEmpty();
        // each checkout has kept a class archive of its own, or the note that it could not be made
        try (Stream<Path> kept = Files.list(folder.resolve("cache/tracksoak"))) {
            assertThat(kept.map(it -> it.getFileName().toString().split("-", -1)[1])
                            .distinct())
                    .hasSize(2);
        }
    }

    private static void copy(Path from, Path to) throws IOException {
        try (Stream<Path> all = Files.walk(from)) {
            for (Path path : all.toList()) {
                Path copy = to.resolve(from.relativize(path).toString());
                if (Files.isDirectory(path)) {
                    Files.createDirectories(copy);
                } else {
                    Files.copy(path, copy);
                }
            }
        }
        Files.setPosixFilePermissions(to.resolve("tracksoak"), PosixFilePermissions.fromString("rwxr-xr-x"));
    }

    @Test
    void withoutMavenAnOldBuildIsUsedAndNamed() throws Exception {
        putJar(jar);
        Files.setLastModifiedTime(jar, OLD);
        Typed typed = start(house.resolve("tracksoak"), "drives");
        assertThat(typed.code()).isZero();
        assertThat(typed.err()).contains("Maven is not here", "the last build is used");
    }

    @Test
    void withoutMavenAndWithoutABuildItSaysWhatToInstall() throws Exception {
        Typed typed = start(house.resolve("tracksoak"), "drives");
        assertThat(typed.code()).isEqualTo(3);
        assertThat(typed.out()).isEmpty();
        assertThat(typed.err()).contains("cannot build: Maven", "Install Maven");
    }

    @Test
    void aFailedBuildShowsWhatMavenSaidOnTheErrorChannel() throws Exception {
        maven("echo '[ERROR] no such thing'; exit 1");
        Typed typed = start(house.resolve("tracksoak"), "drives");
        assertThat(typed.code()).isEqualTo(3);
        assertThat(typed.out()).isEmpty();
        assertThat(typed.err()).contains("[ERROR] no such thing", "the build failed");
    }

    @Test
    void aCacheThatCannotBeMadeIsNoTrouble() throws Exception {
        putJar(jar);
        Files.writeString(folder.resolve("cache"), "a file where the cache folder should be");
        Typed typed = start(house.resolve("tracksoak"), "sessions");
        assertThat(typed.code()).isZero();
        assertThat(typed.err()).isEmpty();
        assertThat(typed.out()).contains("words [sessions]").doesNotContain("warning");
    }
}
