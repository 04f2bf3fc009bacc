package tracksoak.bench.page;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.drive.find.HotplugSource;
import tracksoak.bench.drive.find.Suitability;
import tracksoak.bench.job.Drives;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.base.Digests;
import tracksoak.profiles.base.NanoClock;

/** The drives that are plugged in, looked for again when something was plugged or pulled. Any thread. */
final class PluggedIn {

    private static final int KEY_DIGITS = 16;

    /** Room and lock switches change without anything being plugged; and not every system tells what is. */
    private static final long OLD_NS = 5_000_000_000L;

    private final Rooms rooms;
    private final NanoClock clock;
    private List<One> known = List.of();
    private String knownMark = "";
    private long knownNs;
    private boolean looked;

    PluggedIn(Rooms rooms, NanoClock clock) {
        this.rooms = rooms;
        this.clock = clock;
    }

    /**
     * A drive.
     *
     * @param key names it in forms; of letters and digits
     * @param findings what speaks against testing it, refusals first
     */
    record One(String key, FoundDrive drive, List<Suitability.Finding> findings) {

        One {
            findings = List.copyOf(findings);
        }

        boolean usable() {
            return drive.mounted() && findings.stream().noneMatch(Suitability.Finding::refused);
        }

        /** Where it is mounted. */
        Path path() {
            return Path.of(String.valueOf(drive.facts().mount()));
        }

        String name() {
            return Drives.name(drive.facts());
        }
    }

    /** Changes when something is plugged, mounted or pulled; touches no drive. */
    String mark() {
        HotplugSource hotplug = rooms.hotplug();
        return hotplug.known()
                ? Integer.toHexString((hotplug.devices() + " " + hotplug.places()).hashCode())
                : Long.toHexString(clock.nanoTime() / OLD_NS);
    }

    /** All of them, those that can be tested first. */
    synchronized List<One> all() {
        String mark = mark();
        long now = clock.nanoTime();
        if (!looked || !mark.equals(knownMark) || now - knownNs > OLD_NS) {
            List<One> found = new ArrayList<>();
            for (FoundDrive drive : rooms.drives()) {
                found.add(new One(key(drive), drive, findings(drive)));
            }
            found.sort((a, b) -> Boolean.compare(b.usable(), a.usable()));
            known = List.copyOf(found);
            knownMark = mark;
            knownNs = now;
            looked = true;
        }
        return known;
    }

    /** The one of that key that can be tested; empty if it is not, or not any more, among those listed. */
    Optional<One> usable(String key) {
        return all().stream()
                .filter(one -> one.usable() && one.key().equals(key))
                .findFirst();
    }

    private static List<Suitability.Finding> findings(FoundDrive drive) {
        String mount = drive.facts().mount();
        if (mount == null) {
            return List.of();
        }
        // whether its folder takes writes is looked at before a run: here no drive may hold the page up
        return Suitability.beforePlan(drive, new Suitability.Target(Path.of(mount), true, true));
    }

    private static String key(FoundDrive drive) {
        String place = drive.lockKey() + "\n" + drive.facts().node() + "\n"
                + drive.facts().mount();
        return Digests.sha256Hex(place.getBytes(StandardCharsets.UTF_8)).substring(0, KEY_DIGITS);
    }
}
