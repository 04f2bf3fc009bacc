package tracksoak.report.history;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.HostFacts;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;

/** Why the figures of one run cannot be held against those of another: what was done, how it was written, and where. */
public final class Difference {

    /** Part of a drive's file system by which two runs may have found it differently full (own limit). */
    private static final double MOST_FILLED_APART = 0.1;

    /** Part of a computer's memory by which it may have more or less of it from run to run (own limit). */
    private static final double MOST_MEMORY_APART = 0.05;

    private static final Pattern KERNEL = Pattern.compile(" \\([^()]* \\d[^()]*\\)$");
    private static final Pattern VERSION = Pattern.compile("\\b(\\d+)[.+-][^\\s()]*");

    private final List<String> found = new ArrayList<>();

    private Difference() {}

    /** What can be told before a run is made: one short clause each; empty if it could be compared so far. */
    public static List<String> foreseen(
            PlanFacts plan, Session session, DriveFacts drive, HostFacts host, RunRecord then) {
        Difference difference = new Difference();
        difference.plans(plan, then.plan());
        difference.sessions(session, then.session());
        difference.drives(drive, then.drive());
        difference.hosts(host, then.host());
        return List.copyOf(difference.found);
    }

    /** One short clause each; empty if the runs can be compared. */
    public static List<String> between(RunRecord now, RunRecord then) {
        Difference difference = new Difference();
        if (then.state() != RunState.COMPLETE) {
            difference.found.add("it did not come to its end");
        }
        difference.plans(now.plan(), then.plan());
        difference.sessions(now.session(), then.session());
        difference.drives(now.drive(), then.drive());
        difference.hosts(now.host(), then.host());
        if (now.method().ioMode() != then.method().ioMode()) {
            difference.found.add("written another way past the computer's memory");
        }
        if (now.method().chunkBytes() != then.method().chunkBytes()) {
            difference.found.add("chunks of " + Units.bytes(then.method().chunkBytes()));
        }
        return List.copyOf(difference.found);
    }

    private void plans(PlanFacts now, PlanFacts then) {
        if (!now.name().equals(then.name())) {
            found.add("plan " + Inert.text(then.name()));
            return;
        }
        seconds("take before the fill", now.takeBeforeS(), then.takeBeforeS());
        seconds("cap of the fill", now.fillCapS(), then.fillCapS());
        seconds("take", now.takeAfterS(), then.takeAfterS());
        seconds("copy", now.copyS(), then.copyS());
        seconds("cap of the copy", now.copyCapS(), then.copyCapS());
        seconds("playback", now.playbackS(), then.playbackS());
        if (now.wholeSpace() != then.wholeSpace()) {
            found.add(then.wholeSpace() ? "filled to the end" : "not filled to the end");
        }
    }

    private void sessions(Session now, Session then) {
        if (!now.streams().equals(then.streams()) || !now.mix().equals(then.mix()) || now.kind() != then.kind()) {
            found.add("other tracks, " + Units.rate(then.bytesPerSecond()));
        }
        boolean sameWriting = now.layout() == then.layout()
                && now.chunkBytes() == then.chunkBytes()
                && now.arrival() == then.arrival()
                && now.writers() == then.writers()
                && now.flushS() == then.flushS()
                && now.fileLimitBytes() == then.fileLimitBytes();
        if (!sameWriting) {
            found.add("written in another pattern");
        }
        seconds("session", (double) now.lengthS(), (double) then.lengthS());
        seconds("buffer", now.bufferS(), then.bufferS());
        if (now.stallLimitMs() != then.stallLimitMs()) {
            found.add("stalls counted from " + Units.ms(then.stallLimitMs()));
        }
    }

    private void drives(DriveFacts now, DriveFacts then) {
        if (!Objects.equals(now.fileSystem(), then.fileSystem())
                || !Objects.equals(now.clusterBytes(), then.clusterBytes())) {
            found.add("file system " + known(TradeName.orNull(then.fileSystem())) + cluster(then.clusterBytes()));
        }
        filled(now, then);
        if (!Objects.equals(now.linkMbps(), then.linkMbps()) || !Objects.equals(now.bus(), then.bus())) {
            found.add("port " + known(TradeName.orNull(then.bus()))
                    + (then.linkMbps() == null ? "" : " at " + Math.round(then.linkMbps()) + " Mbit/s"));
        }
    }

    /** A drive's rate hangs on how full it is: caches shrink, and a disk's inner tracks are slower. */
    private void filled(DriveFacts now, DriveFacts then) {
        Double here = used(now);
        Double there = used(then);
        if (here == null && there == null) {
            return;
        }
        if (here == null || there == null || Math.abs(here - there) > MOST_FILLED_APART) {
            found.add("filled to " + (there == null ? "an unknown part" : Units.percent(there)));
        }
    }

    private static @Nullable Double used(DriveFacts drive) {
        Long whole = drive.fileSystemBytes();
        Long free = drive.freeBytes();
        return whole == null || free == null || whole <= 0
                ? null
                : (Double) Math.max(0, Math.min(1, 1 - free / (double) whole));
    }

    /** An update of a system, or what its kernel keeps of the memory for itself, makes no other computer of it. */
    private void hosts(HostFacts now, HostFacts then) {
        List<String> other = new ArrayList<>();
        if (!system(now).equals(system(then))) {
            other.add("system " + Inert.text(then.os()));
        }
        if (!now.arch().equals(then.arch()) || !Objects.equals(now.cpu(), then.cpu())) {
            other.add("processor " + Inert.text(then.cpu() == null ? then.arch() : then.cpu()));
        }
        if (now.cores() != then.cores()) {
            other.add(Count.inDigits(then.cores(), "core"));
        }
        if (!sameMemory(now.memoryBytes(), then.memoryBytes())) {
            other.add("memory " + (then.memoryBytes() == null ? "unknown" : "of " + Units.bytes(then.memoryBytes())));
        }
        if (!other.isEmpty()) {
            found.add("on another computer, or this one was changed: " + String.join(", ", other));
        }
    }

    /** {@code Debian GNU/Linux 12 (bookworm)} of that with {@code (Linux 6.1.0-11-amd64)}; of a version its first number. */
    private static String system(HostFacts host) {
        return VERSION.matcher(KERNEL.matcher(host.os()).replaceFirst("")).replaceAll("$1");
    }

    private static boolean sameMemory(@Nullable Long now, @Nullable Long then) {
        if (now == null || then == null) {
            return Objects.equals(now, then);
        }
        return Math.abs(now - then) <= MOST_MEMORY_APART * Math.max(now, then);
    }

    private void seconds(String what, double now, double then) {
        if (now != then) {
            found.add(what + (then == 0 ? " none" : " of " + Units.seconds(then)));
        }
    }

    private static String known(@Nullable String word) {
        return word == null ? "unknown" : Inert.text(word);
    }

    private static String cluster(@Nullable Long bytes) {
        return bytes == null ? "" : " with clusters of " + bytes + " B";
    }
}
