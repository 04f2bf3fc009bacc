package tracksoak.bench.rig;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Builds what the tests have in C, under {@code src/test/c}, into {@code target/rig}, once per build of the tests. */
public final class CSource {

    private static final Path SOURCES = Path.of("src", "test", "c");

    private CSource() {}

    /** The backend's plugin, a shared object. */
    static Path plugin() {
        return built("bad_drive", "bad_drive.so", List.of("-shared", "-fPIC", "-Wno-unused-parameter"), List.of());
    }

    /**
     * Runs a program to its end.
     *
     * @param name of its source
     * @param library it is linked with
     * @return what it printed
     */
    public static String run(String name, String library, String... arguments) {
        List<String> command = new ArrayList<>();
        command.add(built(name, name, List.of(), List.of("-l" + library)).toString());
        command.addAll(Arrays.asList(arguments));
        return Host.run(command.toArray(String[]::new));
    }

    /** What is made of a source, made anew if it is older than that. */
    private static synchronized Path built(String name, String made, List<String> kind, List<String> libraries) {
        Path base = Path.of(System.getProperty("basedir", ".")).toAbsolutePath().normalize();
        Path source = base.resolve(SOURCES).resolve(name + ".c");
        Path built = base.resolve(Path.of("target", "rig", made));
        try {
            if (Files.exists(built)
                    && Files.getLastModifiedTime(built).compareTo(Files.getLastModifiedTime(source)) > 0) {
                return built;
            }
            Files.createDirectories(built.getParent());
            Path fresh = Files.createTempFile(built.getParent(), name, ".new");
            List<String> command = new ArrayList<>(List.of("gcc", "-O2", "-Wall", "-Wextra", "-Werror"));
            command.addAll(kind);
            command.addAll(List.of("-o", fresh.toString(), source.toString()));
            command.addAll(libraries);
            Host.run(command.toArray(String[]::new));
            if (!fresh.toFile().setExecutable(true)) {
                throw new IOException("cannot be made executable: " + fresh);
            }
            return Files.move(fresh, built, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot build " + source, e);
        }
    }
}
