package tracksoak.bench.standin.learn;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.standin.learn.Evidence.Stop;
import tracksoak.bench.standin.trace.Entry;
import tracksoak.bench.standin.trace.Note;
import tracksoak.bench.volume.ByteSource;

/**
 * Reads from a trace with stops how much audio waited on each track, and which tracks lost some: their chunks then come too few for
 * the time that has passed. Confined to one thread.
 *
 * <p>Chunk k of a track is due at {@code phase + k × period}, both taken from the chunks before the stop; the chunk that waited
 * longest gives the backlog: from its first sample to its being on the drive. After the stop the chunks fall due on the same
 * grid; where their count lags behind it, audio was lost.
 */
public final class BufferReader {

    private static final int BEFORE = 12;
    private static final int AFTER = 12;
    /** Less than this part of a chunk is no loss but unevenness. */
    private static final double LOSS = 0.3;

    private static final double ABOUT = 0.95;
    /** A file that follows a full one begins within so many µs. */
    private static final long FULL_US = 1_500_000;

    private final Evidence evidence;

    private BufferReader(Path trace, ByteSource image) throws IOException {
        evidence = Evidence.of(trace, image);
    }

    /**
     * Reads a trace.
     *
     * @throws tracksoak.profiles.base.Problem if it or the image cannot be understood
     */
    public static BufferFound read(Path trace, ByteSource image) throws IOException {
        return new BufferReader(trace, image).found();
    }

    private BufferFound found() {
        List<Tried> tried = new ArrayList<>();
        List<Stop> stops = evidence.stops();
        for (int i = 0; i < stops.size(); i++) {
            Tried one = tried(stops, i);
            if (one != null) {
                tried.add(one);
            }
        }
        OptionalDouble lost =
                tried.stream().filter(Tried::lost).mapToDouble(Tried::backlogS).min();
        OptionalDouble held = tried.stream()
                .filter(one -> !one.lost() && one.backlogS() < lost.orElse(Double.MAX_VALUE))
                .mapToDouble(Tried::backlogS)
                .max();
        int times = (int) tried.stream()
                .filter(one -> !one.lost() && one.backlogS() >= held.orElse(0) * ABOUT)
                .count();
        boolean ends = tried.stream().anyMatch(Tried::ended);
        boolean any = lost.isPresent();
        double part = tried.stream()
                .filter(one -> one.lost() && one.files() > 0)
                .mapToDouble(one -> (double) one.filesHit() / one.files())
                .average()
                .orElse(0);
        double chunkS =
                evidence.streams().stream().mapToDouble(Stream::periodUs).max().orElse(0) / 1e6;
        return new BufferFound(
                held,
                times,
                lost,
                ends ? "ends the take" : any ? "drops audio and goes on" : "",
                part,
                chunkS,
                tried,
                evidence.trace().sha256(),
                evidence.trace().startEpochMs());
    }

    /** What a stop did; null if nothing was being recorded, or it cannot be told. */
    private @Nullable Tried tried(List<Stop> stops, int index) {
        Stop stop = stops.get(index);
        long nextUs = index + 1 < stops.size() ? stops.get(index + 1).atUs() : evidence.lastDoneUs();
        long earliestUs = index == 0
                ? 0
                : stops.get(index - 1).endUs() + stops.get(index - 1).lengthUs();
        Outcome outcome = new Outcome();
        for (Stream one : evidence.streams()) {
            if (one.periodUs() > 0 && one.arrivedUs(0) < stop.atUs() && goesOn(one, stop.atUs())) {
                outcome.add(one, stop, earliestUs, nextUs);
            }
        }
        if (outcome.files == 0) {
            return null;
        }
        boolean ended = outcome.goingOn == 0 && !followed(stop, nextUs);
        Entry said = said(stop, nextUs);
        boolean byTrace = outcome.told > 0 || ended;
        if (!byTrace && said == null) {
            return null;
        }
        boolean lost = ended || (byTrace ? outcome.hit > 0 : said != null && said.is(Note.HEARD_LOST));
        return new Tried(
                stop.atUs() / 1e6,
                stop.lengthUs() / 1e6,
                (ended ? Math.min(outcome.backlogUs, stop.lengthUs() + outcome.periodUs) : outcome.backlogUs) / 1e6,
                lost,
                outcome.lostUs / 1e6,
                ended ? outcome.files : outcome.hit,
                outcome.files,
                ended,
                byTrace ? "trace" : "person");
    }

    /** Whether the file was still being written when the stop came. */
    private static boolean goesOn(Stream one, long us) {
        int last = one.chunks() - 1;
        return one.doneUs(last) >= us || us - one.arrivedUs(last) < 1.5 * one.periodUs();
    }

    /** Whether other files took over straight away: the old ones were full. */
    private boolean followed(Stop stop, long nextUs) {
        return evidence.streams().stream()
                .anyMatch(one -> one.arrivedUs(0) > stop.atUs()
                        && one.arrivedUs(0) < Math.min((double) nextUs, stop.endUs() + 2 * one.periodUs() + FULL_US));
    }

    private @Nullable Entry said(Stop stop, long nextUs) {
        for (Entry entry : evidence.heard()) {
            if (entry.arrivedUs() >= stop.atUs() && entry.arrivedUs() < nextUs) {
                return entry;
            }
        }
        return null;
    }

    /** What a stop did to the files that were being written. */
    private static final class Outcome {
        private int files;
        private int told;
        private int goingOn;
        private int hit;
        private double backlogUs;
        private double periodUs;
        private double lostUs;

        void add(Stream one, Stop stop, long earliestUs, long nextUs) {
            files++;
            periodUs = Math.max(periodUs, one.periodUs());
            int held = firstDoneAfter(one, (double) stop.endUs());
            int from = Math.max(1, held - BEFORE);
            while (from < held && one.arrivedUs(from) < earliestUs) {
                from++;
            }
            if (from >= held) {
                from = Math.max(0, held - 1);
            }
            double dueUs = median(one, from, held, held);
            if (held < one.chunks()) {
                backlogUs = Math.max(backlogUs, one.firstDoneUs(held) - dueUs + one.periodUs());
            } else {
                backlogUs = Math.max(backlogUs, stop.lengthUs() + one.periodUs());
            }
            double recoveredUs = stop.endUs() + Math.max(stop.lengthUs() * 0.5, 2 * one.periodUs());
            int after = firstArrivedAfter(one, recoveredUs);
            int until = after;
            while (until < one.chunks() && until < after + AFTER && one.arrivedUs(until) < nextUs) {
                until++;
            }
            if (until == after) {
                return;
            }
            goingOn++;
            told++;
            double lag = median(one, after, until, held) - dueUs;
            if (lag > LOSS * one.periodUs()) {
                hit++;
                lostUs = Math.max(lostUs, lag);
            }
        }

        /** When a chunk is due, by the arrival of those from {@code from} to before {@code to}. */
        private static double median(Stream one, int from, int to, int chunk) {
            double[] due = new double[to - from];
            for (int i = from; i < to; i++) {
                due[i - from] =
                        one.arrivedUs(i) + (one.atByte(chunk) - one.atByte(i)) * one.periodUs() / one.chunkBytes();
            }
            Arrays.sort(due);
            return due.length == 0 ? one.arrivedUs(Math.min(chunk, one.chunks() - 1)) : due[(due.length - 1) / 2];
        }

        private static int firstDoneAfter(Stream one, double us) {
            int chunk = 0;
            while (chunk < one.chunks() && one.doneUs(chunk) < us) {
                chunk++;
            }
            return chunk;
        }

        private static int firstArrivedAfter(Stream one, double us) {
            int chunk = 0;
            while (chunk < one.chunks() && one.arrivedUs(chunk) < us) {
                chunk++;
            }
            return chunk;
        }
    }
}
