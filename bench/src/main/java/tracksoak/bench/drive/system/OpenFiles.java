package tracksoak.bench.drive.system;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** How many files a process may have open is the computer's limit: what fails for it is no drive's doing. */
public final class OpenFiles {

    private OpenFiles() {}

    /** Whether one more can be opened, tried on a file of the runtime's own; true where that is not there. */
    public static boolean oneMore() {
        return oneMore(Path.of(System.getProperty("java.home", ""), "release"));
    }

    static boolean oneMore(Path file) {
        if (!Files.isReadable(file)) {
            return true;
        }
        try {
            Files.newInputStream(file).close();
            return true;
        } catch (IOException none) {
            return false;
        }
    }
}
