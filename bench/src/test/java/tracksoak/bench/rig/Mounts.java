package tracksoak.bench.rig;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/** What is mounted where, from the kernel's own table: asking the mount itself could hang. */
final class Mounts {

    private Mounts() {}

    /** Mount points at or under {@code folder}, the one mounted last first. */
    static List<Path> under(Path folder) {
        List<Path> found = new ArrayList<>();
        try {
            for (String line : Files.readAllLines(Path.of("/proc/self/mounts"))) {
                Path point = Path.of(line.split(" ", -1)[1].replace("\\040", " "));
                if (point.startsWith(folder)) {
                    found.add(point);
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read the table of mounts", e);
        }
        Collections.reverse(found);
        return found;
    }

    static boolean isMounted(Path point) {
        return under(point).contains(point);
    }

    /**
     * Unmounts, politely for 5 s, then by taking the name away, so that the kernel lets go when the last user does.
     *
     * @return whether it went politely
     */
    static boolean unmount(Path point) {
        if (!isMounted(point)) {
            return true;
        }
        Host.Result polite = Host.attempt(5, "umount", point.toString());
        if (polite.exit() == 0) {
            return true;
        }
        Host.attempt(5, "umount", "-l", point.toString());
        return false;
    }
}
