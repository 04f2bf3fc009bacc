package tracksoak.bench.rig;

import java.util.Arrays;
import java.util.Optional;

/**
 * Which of the kernel's two kinds of cgroups can throttle here, and where a process is in them, by the kernel's own texts
 * (Linux, admin-guide/cgroup-v2.rst and cgroup-v1/cgroups.rst).
 */
enum Cgroups {
    /** A tree per controller; throttled by {@code blkio.throttle.write_bps_device}. */
    V1,
    /** One tree; throttled by {@code io.max}. */
    V2;

    /**
     * The first kind is preferred: where its throttle is there, the controller is not in the second.
     *
     * @param v1Throttle whether the root's {@code blkio.throttle.write_bps_device} may be written
     * @param v2Controllers the second kind's {@code cgroup.controllers}, empty if there is none
     * @param v2Subtree whether its {@code cgroup.subtree_control} may be written
     */
    static Optional<Cgroups> usable(boolean v1Throttle, String v2Controllers, boolean v2Subtree) {
        if (v1Throttle) {
            return Optional.of(V1);
        }
        return v2Subtree && has(v2Controllers, "\\s+", "io") ? Optional.of(V2) : Optional.empty();
    }

    /**
     * The group a process is in, below the root of the tree that throttles.
     *
     * @param procCgroup text of {@code /proc/PID/cgroup}: {@code number:controllers:/path}, the second kind {@code 0::/path}
     * @return without the leading slash; empty for the root, and where the text does not say
     */
    String groupIn(String procCgroup) {
        return procCgroup
                .lines()
                .map(line -> line.split(":", 3))
                .filter(parts -> parts.length == 3 && parts[2].startsWith("/") && mine(parts))
                .map(parts -> parts[2].substring(1))
                .findFirst()
                .orElse("");
    }

    private boolean mine(String[] parts) {
        return this == V1 ? has(parts[1], ",", "blkio") : parts[0].equals("0") && parts[1].isEmpty();
    }

    private static boolean has(String words, String between, String word) {
        return Arrays.asList(words.split(between, -1)).contains(word);
    }
}
