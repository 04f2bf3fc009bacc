package tracksoak.report.verdict;

import java.util.ArrayList;
import java.util.List;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.drill.DrillFile;
import tracksoak.report.record.facts.drill.DrillFile.Use;
import tracksoak.report.record.facts.drill.DrillFindings;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.facts.drill.DrillTrack;

/** Says what an unplug drill comes to. A pure function of the record. Any thread. */
public final class DrillJudge {

    /** Differences below this are not worth a word, in ms. */
    private static final double NOTHING_MS = 1;

    private DrillJudge() {}

    /**
     * The findings of a drill whose files have been read.
     *
     * @throws IllegalArgumentException if the drill has no track
     */
    public static DrillFindings of(DrillRecord drill) {
        if (drill.tracks().isEmpty()) {
            throw new IllegalArgumentException("drill " + drill.id() + " has no track");
        }
        DrillTrack worst = drill.tracks().get(0);
        double sinceFlushMs = 0;
        double brokenMs = 0;
        for (DrillTrack track : drill.tracks()) {
            worst = track.lostMs() > worst.lostMs() ? track : worst;
            sinceFlushMs = Math.max(sinceFlushMs, track.sinceFlushMs());
            brokenMs = Math.max(brokenMs, track.brokenMs());
        }
        List<DrillFile> stopped =
                drill.files().stream().filter(DrillFile::stoppedFirst).toList();
        double stoppedLostMs =
                stopped.stream().mapToDouble(file -> lostMs(drill, file)).max().orElse(0);
        int stoppedBad =
                (int) stopped.stream().filter(file -> file.use() != Use.OPENS).count();
        double savedMs = Math.max(0, worst.lostMs() - stoppedLostMs);
        return new DrillFindings(
                sentence(drill, worst, brokenMs),
                advice(drill, stoppedLostMs, stoppedBad, savedMs, brokenMs),
                worst.lostMs(),
                worst.firstTrack(),
                sinceFlushMs,
                brokenMs,
                count(drill, Use.OPENS),
                count(drill, Use.REPAIR),
                count(drill, Use.EMPTY),
                count(drill, Use.GONE),
                stoppedLostMs,
                stoppedBad,
                savedMs);
    }

    private static double lostMs(DrillRecord drill, DrillFile file) {
        long rate = drill.tracks().stream()
                .filter(track -> track.firstTrack() == file.firstTrack())
                .mapToLong(DrillTrack::bytesPerSecond)
                .findFirst()
                .orElseThrow();
        return Math.max(0, file.wroteBytes() - file.readableBytes()) * 1e3 / rate;
    }

    private static int count(DrillRecord drill, Use use) {
        return (int) drill.files().stream()
                .filter(file -> !file.stoppedFirst() && file.use() == use)
                .count();
    }

    private static String sentence(DrillRecord drill, DrillTrack worst, double brokenMs) {
        String broken = brokenMs > NOTHING_MS
                ? " Of that, " + Units.ms(brokenMs) + " had been flushed: this drive or its file system does not keep"
                        + " what it has confirmed."
                : "";
        double droppedMs = drill.tracks().stream()
                .mapToDouble(track -> track.producedMs() - track.keptMs())
                .max()
                .orElse(0);
        String before = droppedMs > NOTHING_MS
                ? " Before that the recorder had already lost up to " + Units.ms(droppedMs)
                        + " of a track, as the drive was too slow: the pull has no part in it."
                : "";
        return "Pulling the plug cost " + Units.ms(worst.lostMs()) + " of audio on the worst track, and " + files(drill)
                + "." + broken + before;
    }

    private static String files(DrillRecord drill) {
        int all = (int)
                drill.files().stream().filter(file -> !file.stoppedFirst()).count();
        List<String> words = new ArrayList<>();
        for (Use use : Use.values()) {
            int count = count(drill, use);
            if (count == all) {
                return switch (use) {
                    case OPENS -> "all files open as they are";
                    case REPAIR -> "every file needs repair before it opens";
                    case EMPTY -> "every file holds nothing";
                    case GONE -> "every file is gone";
                };
            }
            if (count > 0) {
                words.add(
                        switch (use) {
                            case OPENS -> Count.inDigits(count, "opens as it is", "open as they are");
                            case REPAIR -> Count.number(count) + " must be repaired";
                            case EMPTY -> Count.inDigits(count, "holds nothing", "hold nothing");
                            case GONE -> Count.inDigits(count, "is gone", "are gone");
                        });
            }
        }
        return "of " + all + " files " + Count.list(words);
    }

    private static String advice(
            DrillRecord drill, double stoppedLostMs, int stoppedBad, double savedMs, double brokenMs) {
        if (stoppedLostMs > NOTHING_MS || stoppedBad > 0) {
            return "Even the take that was stopped first did not survive whole: eject the drive before unplugging, and"
                    + " do not trust it with a show until it comes through this drill.";
        }
        String habit =
                "Stop, wait for the close, eject, then unplug: the take that was stopped first survived whole, so"
                        + " the habit would have saved " + Units.ms(savedMs)
                        + " per track, and no file would need repair.";
        if (drill.tracks().stream().anyMatch(track -> track.droppedBytes() > 0)) {
            return habit
                    + " This drive already loses audio while it records: do not flush it more often, take another one.";
        }
        if (brokenMs > NOTHING_MS) {
            return habit + " A shorter flush interval will not help with this drive.";
        }
        boolean unflushedLost = drill.tracks().stream().anyMatch(track -> track.confirmedLostMs() > NOTHING_MS);
        return unflushedLost
                ? habit + " Against accidents a shorter flush interval helps: what was flushed survived."
                : habit;
    }
}
