package tracksoak.bench.drive;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.extension.AnnotatedElementContext;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.io.TempDirFactory;

/** Temporary folders inside the build folder: the system's own may lie in memory. */
public final class BuildFolder implements TempDirFactory {

    @Override
    public Path createTempDirectory(AnnotatedElementContext element, ExtensionContext context) throws IOException {
        Path parent = Files.createDirectories(Path.of("target", "drives").toAbsolutePath());
        return Files.createTempDirectory(parent, "drive-");
    }
}
