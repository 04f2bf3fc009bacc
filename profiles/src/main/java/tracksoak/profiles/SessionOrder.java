package tracksoak.profiles;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Sessions held against each other: what a PASS for one says of another, and what a FAIL does. Both are partial orders; names, titles
 * and whether the buffer is assumed play no part, nor does the stall limit, which only says what is noted. Pure.
 *
 * <p>A PASS covers what was met and nothing else. Of pieces, of writers, of the times between flushes, of two ways in which chunks
 * fall due neither is the harder one. Nor is the higher sample rate: backlog is counted in the time of audio, and a piece of one size
 * lasts half as long at twice the rate. What is left out without harm are whole streams.
 */
public final class SessionOrder {

    /**
     * Between two chunks the drive of a session with fewer streams rests longer than it was seen to. No standby timer of a drive is
     * shorter than this: they count in steps of 5 s (ATA/ATAPI command set, standby timer periods).
     */
    static final double SHORTEST_SLEEP_S = 5;

    private SessionOrder() {}

    /** Whether a PASS for {@code proven} says that {@code asked} would pass. */
    public static boolean covers(Session proven, Session asked) {
        return shortOf(proven, asked).isEmpty();
    }

    /**
     * In which respects a PASS for {@code proven} falls short of {@code asked}, in a few words each; empty where it covers it. For every
     * respect that is not named, what {@code asked} asks was met.
     */
    public static List<String> shortOf(Session proven, Session asked) {
        List<String> found = new ArrayList<>(otherWriting(proven, asked));
        add(found, proven.lengthS() < asked.lengthS(), "the length");
        add(found, proven.bufferS() > asked.bufferS(), "the recorder's buffer");
        boolean any = !asked.fileSystems().isEmpty() && proven.fileSystems().isEmpty();
        add(found, any || !asked.fileSystems().containsAll(proven.fileSystems()), "the file systems");
        add(found, proven.risk() > asked.risk(), "the risk accepted");
        margins(found, proven.margins(), asked.margins());
        return List.copyOf(found);
    }

    /**
     * The respects in which a drive that was written for {@code proven} was not written as {@code asked} would write it; empty where it was,
     * or where streams alone were left out. What is judged from the same facts, as length and margins are, is not among them.
     */
    public static List<String> otherWriting(Session proven, Session asked) {
        List<String> found = new ArrayList<>();
        add(found, proven.kind() != asked.kind(), "the kind of session");
        add(found, proven.layout() != asked.layout(), "the layout of files");
        add(found, proven.chunkBytes() != asked.chunkBytes(), "the piece written at once");
        add(found, proven.arrival() != asked.arrival(), "when chunks fall due");
        add(found, proven.writers() != asked.writers(), "the writes in flight");
        add(found, Double.compare(proven.flushS(), asked.flushS()) != 0, "the time between flushes");
        add(found, Double.compare(proven.headerS(), asked.headerS()) != 0, "the time between headers");
        add(found, proven.spaceInAdvanceBytes() != asked.spaceInAdvanceBytes(), "the space given in advance");
        add(found, !proven.mix().equals(asked.mix()), "the mix");
        streams(found, proven, asked);
        add(found, otherSplits(proven, asked), "the largest file");
        return List.copyOf(found);
    }

    /**
     * Whether a FAIL for {@code failed} counts against {@code asked} too: it asks as much in all that can be counted, a higher rate of a
     * track included. No PASS follows from this; it errs on the careful side, and a later PASS mends it.
     */
    public static boolean asksAsMuch(Session asked, Session failed) {
        return asked.kind() == failed.kind()
                && asked.layout() == failed.layout()
                && asked.chunkBytes() == failed.chunkBytes()
                && asked.writers() == failed.writers()
                && Double.compare(asked.flushS(), failed.flushS()) == 0
                && asked.mix().equals(failed.mix())
                && (asked.arrival() == Arrival.BURST || failed.arrival() == Arrival.STAGGERED)
                && asked.lengthS() >= failed.lengthS()
                && asked.bufferS() <= failed.bufferS()
                && asked.fileLimitBytes() <= failed.fileLimitBytes()
                && failed.fileSystems().containsAll(asked.fileSystems())
                && asFast(asked.streams(), failed.streams())
                && marginsAsked(asked.margins(), failed.margins());
    }

    private static void add(List<String> found, boolean falls, String respect) {
        if (falls) {
            found.add(respect);
        }
    }

    private static void streams(List<String> found, Session proven, Session asked) {
        Map<List<Long>, Integer> left = counted(proven.streams());
        Map<List<Long>, Integer> wanted = counted(asked.streams());
        if (left.equals(wanted)) {
            return;
        }
        if (!left.keySet().containsAll(wanted.keySet())) {
            found.add("the time between chunks");
        } else if (wanted.entrySet().stream().anyMatch(each -> each.getValue() > left.getOrDefault(each.getKey(), 0))) {
            found.add("the number of tracks");
        } else if (asked.kind() == SessionKind.ARCHIVE) {
            // a copy takes what the drive gives, so a smaller one is another one
            found.add("the number of tracks");
        } else if (periodS(asked) >= SHORTEST_SLEEP_S) {
            found.add("how long the drive rests between chunks");
        }
    }

    /** Streams alike, by their rate and the tracks inside. */
    private static Map<List<Long>, Integer> counted(List<StreamSpec> streams) {
        Map<List<Long>, Integer> counted = new HashMap<>();
        for (StreamSpec stream : streams) {
            counted.merge(List.of(stream.bytesPerSecond(), (long) stream.tracks()), 1, Integer::sum);
        }
        return counted;
    }

    /** The longest time between two chunks of one stream. */
    private static double periodS(Session session) {
        return session.streams().stream()
                .mapToDouble(stream -> stream.chunkBytes() / (double) stream.bytesPerSecond())
                .max()
                .orElse(0);
    }

    /** Files change where the limit of files is met; where no file of either session grows so large, the limit is none. */
    private static boolean otherSplits(Session proven, Session asked) {
        return proven.fileLimitBytes() != asked.fileLimitBytes() && (splits(proven) || splits(asked));
    }

    private static boolean splits(Session session) {
        return session.streams().stream()
                .anyMatch(stream -> stream.bytesPerSecond() * session.lengthS() >= session.fileLimitBytes()
                        || stream.bytesPerSecond() * session.lengthS() >= FileLimit.FAT32.maxFileBytes());
    }

    private static void margins(List<String> found, Margins proven, Margins asked) {
        add(found, proven.buffer() < asked.buffer(), "the buffer margin asked");
        add(found, proven.rate() < asked.rate(), "the rate margin asked");
        add(found, proven.port() < asked.port(), "the port margin asked");
        add(found, proven.playback() < asked.playback(), "the playback margin asked");
        add(found, proven.longestStallMs() > asked.longestStallMs(), "the longest stall allowed");
        add(found, proven.closeMs() > asked.closeMs(), "the longest close allowed");
    }

    private static boolean marginsAsked(Margins asked, Margins failed) {
        List<String> less = new ArrayList<>();
        margins(less, asked, failed);
        return less.isEmpty();
    }

    private static boolean asFast(List<StreamSpec> asked, List<StreamSpec> failed) {
        if (asked.size() < failed.size()) {
            return false;
        }
        long[] has = fastestLast(asked);
        long[] needs = fastestLast(failed);
        for (int i = 1; i <= needs.length; i++) {
            if (has[has.length - i] < needs[needs.length - i]) {
                return false;
            }
        }
        return true;
    }

    private static long[] fastestLast(List<StreamSpec> streams) {
        return streams.stream().mapToLong(StreamSpec::bytesPerSecond).sorted().toArray();
    }
}
