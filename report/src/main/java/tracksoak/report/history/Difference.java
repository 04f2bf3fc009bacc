package tracksoak.report.history;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;

/** Why the figures of one run cannot be held against those of another: what was done, how it was written, and where. */
public final class Difference {

    private final List<String> found = new ArrayList<>();

    private Difference() {}

    /** What can be told before a run is made: one short clause each; empty if it could be compared so far. */
    public static List<String> foreseen(PlanFacts plan, Session session, DriveFacts drive, RunRecord then) {
        Difference difference = new Difference();
        difference.plans(plan, then.plan());
        difference.sessions(session, then.session());
        difference.drives(drive, then.drive());
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
            found.add("other tracks, " + Units.rate((double) then.bytesPerSecond()));
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
            found.add("stalls counted from " + Units.ms((double) then.stallLimitMs()));
        }
    }

    private void drives(DriveFacts now, DriveFacts then) {
        if (!Objects.equals(now.fileSystem(), then.fileSystem())
                || !Objects.equals(now.clusterBytes(), then.clusterBytes())) {
            found.add("file system " + known(then.fileSystem()) + cluster(then.clusterBytes()));
        }
        if (!Objects.equals(now.linkMbps(), then.linkMbps()) || !Objects.equals(now.bus(), then.bus())) {
            found.add("port " + known(then.bus())
                    + (then.linkMbps() == null ? "" : " at " + Math.round(then.linkMbps()) + " Mbit/s"));
        }
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
