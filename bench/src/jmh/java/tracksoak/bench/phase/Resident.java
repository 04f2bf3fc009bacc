package tracksoak.bench.phase;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Resident memory of this process. */
final class Resident {

    private Resident() {}

    /** In MB, 0 where the system does not say. */
    static double megabytes() {
        try {
            for (String line : Files.readAllLines(Path.of("/proc/self/status"))) {
                if (line.startsWith("VmHWM:")) {
                    return Long.parseLong(line.replaceAll("[^0-9]", "")) * 1024 / 1e6;
                }
            }
        } catch (IOException none) {
            return 0;
        }
        return 0;
    }
}
