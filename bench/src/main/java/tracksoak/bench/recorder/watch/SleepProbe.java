package tracksoak.bench.recorder.watch;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalDouble;

/** A clock that goes on while the computer sleeps, where there is one; the monotonic clock stands still then. */
@FunctionalInterface
public interface SleepProbe {

    /** Seconds since the computer was started, sleep included; empty where the system does not say. */
    OptionalDouble secondsSinceBoot();

    /** The probe of this system: {@code /proc/uptime} on Linux, none elsewhere. */
    static SleepProbe ofThisSystem() {
        return () -> {
            try {
                String text = Files.readString(Path.of("/proc/uptime"));
                return OptionalDouble.of(Double.parseDouble(text.substring(0, text.indexOf(' '))));
            } catch (IOException | RuntimeException none) {
                return OptionalDouble.empty();
            }
        };
    }
}
