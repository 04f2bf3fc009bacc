package tracksoak.bench.job;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.HotplugSource;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Units;
import tracksoak.profiles.base.Waiter;
import tracksoak.report.record.facts.ReadyFacts;

/** Waits for a drive to be plugged in and mounted, and keeps the times. Looks ten times a second. */
public final class PlugWait {

    /** Between two looks, in ns; the times are as exact as that. */
    static final long LOOK_NS = 100_000_000;

    private final HotplugSource hotplug;
    private final NanoClock clock;
    private final Waiter waiter;
    private final BooleanSupplier stop;
    private final long startNs;
    private final Set<Integer> mountedBefore = new HashSet<>();
    private final Map<String, Long> seenNs = new HashMap<>();
    private Set<String> present;

    /**
     * The clock starts now.
     *
     * @param stop true once the person gives up
     */
    public PlugWait(HotplugSource hotplug, NanoClock clock, Waiter waiter, BooleanSupplier stop) {
        this.hotplug = hotplug;
        this.clock = clock;
        this.waiter = waiter;
        this.stop = stop;
        this.startNs = clock.nanoTime();
        this.present = hotplug.devices();
        hotplug.places().forEach(place -> mountedBefore.add(place.mount()));
    }

    /**
     * A drive that came.
     *
     * @param path where to work on it
     * @param startNs when the waiting began
     * @param signNs first sign of it
     * @param mountedNs when its file system was mounted
     * @param deviceSeen whether the first sign was the device itself
     */
    public record Came(Path path, long startNs, long signNs, long mountedNs, boolean deviceSeen) {

        /** The times, the first file having been written and flushed at {@code usableNs}. */
        public ReadyFacts ready(long usableNs) {
            return new ReadyFacts(
                    (signNs - startNs) / 1e9, (mountedNs - signNs) / 1e9, (usableNs - signNs) / 1e9, deviceSeen);
        }
    }

    /**
     * Waits.
     *
     * @param path where the drive will be mounted, or a folder on it; null for wherever the next one is
     * @param limitS gives up after this long, in s
     * @return null if the person gave up
     */
    @Nullable
    public Came await(@Nullable Path path, double limitS) {
        if (!hotplug.known()) {
            throw Problem.cannot(
                    "this system does not tell when a drive is plugged in (Linux does)",
                    "plug it in first and leave out --wait");
        }
        HotplugSource.Place already = path == null ? null : hotplug.of(path).orElse(null);
        if (path != null
                && already != null
                && already.point().equals(path.toAbsolutePath().normalize())) {
            throw Problem.askedWrong(
                    "a drive is mounted at " + Inert.quoted(path) + " already, so its plugging in cannot be timed",
                    "unmount and unplug it, start again, and plug it in then; or leave out --wait");
        }
        long giveUpNs = startNs + Math.round(limitS * 1e9);
        while (!stop.getAsBoolean()) {
            long now = clock.nanoTime();
            look(now);
            HotplugSource.Place place = candidate(path);
            if (place != null) {
                OptionalLong first = place.devices().stream()
                        .filter(seenNs::containsKey)
                        .mapToLong(name -> seenNs.getOrDefault(name, now))
                        .min();
                return new Came(
                        path == null ? place.point() : path, startNs, first.orElse(now), now, first.isPresent());
            }
            if (now >= giveUpNs) {
                throw Problem.cannot(
                        "no drive was plugged in and mounted within " + Units.seconds(limitS)
                                + (seenNs.isEmpty()
                                        ? ""
                                        : ", though " + Count.list(List.copyOf(seenNs.keySet())) + " came"),
                        seenNs.isEmpty()
                                ? "try another port or cable, and again"
                                : "mount it, or see whether this system mounts drives by itself");
            }
            waiter.waitUntil(now + LOOK_NS);
        }
        return null;
    }

    /** A device that went and came back is new again. */
    private void look(long now) {
        Set<String> devices = hotplug.devices();
        for (String name : devices) {
            if (!present.contains(name)) {
                seenNs.put(name, now);
            }
        }
        seenNs.keySet().retainAll(devices);
        present = devices;
    }

    private HotplugSource.@Nullable Place candidate(@Nullable Path path) {
        if (path != null) {
            return hotplug.of(path)
                    .filter(place -> !mountedBefore.contains(place.mount()))
                    .orElse(null);
        }
        return hotplug.places().stream()
                .filter(place -> !mountedBefore.contains(place.mount()))
                .findFirst()
                .orElse(null);
    }
}
