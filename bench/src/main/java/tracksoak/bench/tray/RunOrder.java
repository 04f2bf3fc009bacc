package tracksoak.bench.tray;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.verdict.Port;

/**
 * A run that was asked for, as it lies in its folder among the state of this computer.
 *
 * @param schema {@value #SCHEMA}
 * @param id 32 hex digits; names its folder
 * @param tray id of the tray it belongs to, empty for a run alone
 * @param again id of the run in the tray that it does again, alone this time; empty for none
 * @param askedMs when, as epoch time in ms
 * @param words the command that does it, without the program's name
 * @param drive maker and model of the drive, or the name of a simulated one
 * @param place where the drive was mounted, or the name of the simulated drive
 * @param simulated whether the drive is simulated
 * @param session name of the session
 * @param plan name of the plan
 * @param tag what the crew calls the drive, empty if nobody said
 * @param folder where record and report go
 * @param links what the drive's data passes on its way to the computer, the nearest first; null if that is not known
 * @param linkMbps speed of the slowest link on that way in Mbit/s, null if it is not known
 * @param meant what tells the drive from others; null of a simulated one, and in orders of earlier versions
 * @param remarks what was to be known before it was asked for, one sentence each
 */
public record RunOrder(
        String schema,
        String id,
        String tray,
        String again,
        long askedMs,
        List<String> words,
        String drive,
        String place,
        boolean simulated,
        String session,
        String plan,
        String tag,
        String folder,
        @Nullable List<String> links,
        @Nullable Double linkMbps,
        @Nullable DriveMeant meant,
        List<String> remarks) {

    static final String SCHEMA = "tracksoak/run-order/1";

    public RunOrder {
        words = List.copyOf(words);
        links = links == null ? null : List.copyOf(links);
        remarks = List.copyOf(Objects.requireNonNullElse(remarks, List.of()));
    }

    /** What the crew calls the drive, else where it was mounted. */
    public String name() {
        return tag.isEmpty() ? place : tag;
    }

    /** The part of its links that it needs at the session's pace, with the margins; 1 where their speed is not known. */
    public double share(Session what) {
        return linkMbps == null ? 1 : Port.share(what, linkMbps);
    }

    /**
     * Refuses to begin where another drive, or none, is in the place of the one that was meant.
     *
     * @param now the drive in that place, null for none
     */
    public void mustBe(@Nullable FoundDrive now) {
        DriveMeant wanted = meant;
        DriveMeant there = now == null ? null : DriveMeant.of(now);
        if (wanted == null || (there != null && wanted.maybe(there))) {
            return;
        }
        String instead = there == null || !Objects.equals(wanted.mount(), there.mount())
                ? "no drive is mounted there now"
                : "there now: " + there.words();
        throw Problem.cannot(
                "the drive that was meant is not at " + Inert.quoted(place)
                        + " any more, and nothing was written: that is "
                        + (tag.isEmpty() ? "" : tag + ", ") + wanted.words() + "; "
                        + instead,
                "plug in the drive that was meant and test it again, or begin a new test of the one that is there");
    }
}
