package tracksoak.bench.rig;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/** Builds the backend's plugin from its C source into {@code target/rig}, once per build of the tests. */
final class Plugin {

    private static final Path SOURCE = Path.of("src", "test", "c", "bad_drive.c");

    private Plugin() {}

    /** The shared object, built if it is older than its source. */
    static synchronized Path built() {
        Path base = Path.of(System.getProperty("basedir", ".")).toAbsolutePath().normalize();
        Path source = base.resolve(SOURCE);
        Path built = base.resolve(Path.of("target", "rig", "bad_drive.so"));
        try {
            if (Files.exists(built)
                    && Files.getLastModifiedTime(built).compareTo(Files.getLastModifiedTime(source)) > 0) {
                return built;
            }
            Files.createDirectories(built.getParent());
            Path fresh = Files.createTempFile(built.getParent(), "bad_drive", ".so");
            Host.run(
                    "gcc",
                    "-shared",
                    "-fPIC",
                    "-O2",
                    "-Wall",
                    "-Wextra",
                    "-Werror",
                    "-Wno-unused-parameter",
                    "-o",
                    fresh.toString(),
                    source.toString());
            return Files.move(fresh, built, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot build " + source, e);
        }
    }
}
