package tracksoak.bench.standin.learn;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.IntToLongFunction;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.standin.learn.Evidence.Stop;
import tracksoak.bench.standin.trace.Note;
import tracksoak.bench.volume.ByteSource;

/**
 * Reads from a trace with stops how much audio waited on each track, and which tracks lost some. What tells it, in order of trust: the
 * test signal in the recording; chunks that come too few for the time that has passed; a person's word. Confined to one thread.
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

    /** Small chunks are told from unevenness of so many µs only where they are larger. */
    private static final double CLOCK_US = 4_000;

    private static final double ABOUT = 0.95;
    /** A file that follows a full one begins within so many µs. */
    private static final long FULL_US = 1_500_000;

    private static final String RECORDING = "recording";
    static final String TRACE = "trace";
    private static final String PERSON = "person";

    private final Evidence evidence;
    private final Map<Stream, SignalLook> signals = new HashMap<>();

    private BufferReader(Path trace, ByteSource image) throws IOException {
        evidence = Evidence.of(trace, image);
        if (!evidence.stops().isEmpty()) {
            for (Stream one : evidence.streams()) {
                SignalLook.of(image, one.file()).ifPresent(look -> signals.put(one, look));
            }
        }
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
        OptionalDouble doubt = tried.stream()
                .filter(Tried::doubtful)
                .mapToDouble(Tried::backlogS)
                .min();
        double limit = Math.min(lost.orElse(Double.MAX_VALUE), doubt.orElse(Double.MAX_VALUE));
        List<Tried> holding = tried.stream()
                .filter(one -> one.held() && one.backlogS() < limit)
                .toList();
        Optional<Tried> best = holding.stream().max(Comparator.comparingDouble(Tried::sureS));
        OptionalDouble held = best.stream()
                .mapToDouble(one -> Math.floor(one.sureS() * 1000) / 1000)
                .filter(s -> s > 0)
                .findFirst();
        int times = (int) holding.stream()
                .filter(one -> one.sureS() >= held.orElse(0) * ABOUT)
                .count();
        double part = tried.stream()
                .filter(one -> one.lost() && one.filesHit() > 0)
                .mapToDouble(one -> (double) one.filesHit() / one.files())
                .average()
                .orElse(Double.NaN);
        double chunkS =
                evidence.streams().stream().mapToDouble(Stream::periodUs).max().orElse(0) / 1e6;
        return new BufferFound(
                held,
                best.map(Tried::unseenS).orElse(0.0),
                times,
                lost,
                doubt,
                onOverrun(tried),
                part,
                chunkS,
                tried,
                evidence.trace().sha256(),
                evidence.trace().startEpochMs());
    }

    private static String onOverrun(List<Tried> tried) {
        List<Tried> lost = tried.stream().filter(Tried::lost).toList();
        if (lost.isEmpty()) {
            return "";
        }
        if (lost.stream().anyMatch(Tried::ended)) {
            return "ends the take";
        }
        return lost.stream().allMatch(Tried::filled)
                ? "puts something else in the place of audio and goes on"
                : "drops audio and goes on";
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
                outcome.add(one, signals.get(one), stop, earliestUs, nextUs);
            }
        }
        if (outcome.files == 0) {
            return null;
        }
        if (outcome.goingOn == 0 && index + 1 == stops.size() && !evidence.ended()) {
            return null; // the trace breaks off: whether the take goes on is not in it
        }
        boolean ended = outcome.goingOn == 0 && !followed(stop, outcome, nextUs);
        long untilUs = index + 1 < stops.size() ? nextUs : Long.MAX_VALUE;
        Optional<Boolean> said = heardLoss(stop, untilUs);
        boolean heard = said.orElse(false);
        String by;
        if (outcome.bySignal > 0 && !ended) {
            by = RECORDING;
        } else if (ended || outcome.hit > 0 || (outcome.goingOn > 0 && !heard)) {
            by = TRACE;
        } else if (said.isPresent()) {
            by = PERSON;
        } else {
            return null;
        }
        boolean lost = by.equals(PERSON) ? heard : ended || outcome.hit > 0;
        return new Tried(
                stop.atUs() / 1e6,
                stop.lengthUs() / 1e6,
                outcome.backlogUs / outcome.files / 1e6,
                outcome.unseenUs / 1e6,
                lost,
                !lost && outcome.unseenUs > 0 && fellShort(stop, untilUs),
                outcome.lostUs / 1e6,
                ended ? outcome.files : outcome.hit,
                outcome.files,
                ended,
                !ended && outcome.late == 0,
                by);
    }

    /** Whether the file was still being written when the stop came. */
    private static boolean goesOn(Stream one, long us) {
        int last = one.chunks() - 1;
        return one.doneUs(last) >= us || us - one.arrivedUs(last) < 1.5 * one.periodUs();
    }

    /** Whether other files took over straight away: the old ones were full. */
    private boolean followed(Stop stop, Outcome outcome, long nextUs) {
        double untilUs = Math.max(outcome.lastUs, stop.endUs()) + 2 * outcome.periodUs + FULL_US;
        return evidence.streams().stream()
                .anyMatch(one -> one.arrivedUs(0) > stop.atUs() - 2 * outcome.periodUs
                        && one.arrivedUs(one.chunks() - 1) > stop.endUs()
                        && one.arrivedUs(0) < Math.min((double) nextUs, untilUs));
    }

    /** Whether the probe missed audio in the sum of all tracks. */
    private boolean fellShort(Stop stop, long untilUs) {
        return evidence.fellShort().stream()
                .anyMatch(entry -> entry.arrivedUs() >= stop.endUs() && entry.arrivedUs() < untilUs);
    }

    /** What a person said of a stop; of several words that audio was lost counts. */
    private Optional<Boolean> heardLoss(Stop stop, long nextUs) {
        return evidence.heard().stream()
                .filter(entry -> entry.arrivedUs() >= stop.atUs() && entry.arrivedUs() < nextUs)
                .map(entry -> entry.is(Note.HEARD_LOST))
                .reduce(Boolean::logicalOr);
    }

    /** What a stop did to the files that were being written. */
    private static final class Outcome {
        private int files;
        private int goingOn;
        private int bySignal;
        private int hit;
        private int late;
        private long lastUs;
        /** Of all files, as the drive came back. */
        private double backlogUs;

        private double unseenUs;
        private double periodUs;
        private double lostUs;

        void add(Stream one, @Nullable SignalLook signal, Stop stop, long earliestUs, long nextUs) {
            files++;
            lastUs = Math.max(lastUs, one.arrivedUs(one.chunks() - 1));
            periodUs = Math.max(periodUs, one.periodUs());
            int held = first(one, one::doneUs, (double) stop.endUs());
            int from = Math.max(1, held - BEFORE);
            while (from < held && one.arrivedUs(from) < earliestUs) {
                from++;
            }
            if (from >= held) {
                from = Math.max(0, held - 1);
            }
            double dueUs = median(one, from, held, held);
            double waitedUs = stop.endUs() - dueUs + one.periodUs();
            backlogUs += Math.max(0, Math.min(waitedUs, stop.lengthUs() + one.periodUs()));
            double leastUs = Math.max(LOSS * one.periodUs(), Math.min(CLOCK_US, 2 * LOSS * one.periodUs()));
            double recoveredUs = stop.endUs() + Math.max(stop.lengthUs() * 0.5, 2 * one.periodUs());
            int until = first(one, one::arrivedUs, (double) nextUs);
            // the last before the next stop: a drive that is busy takes long to catch up
            int after = Math.max(first(one, one::arrivedUs, recoveredUs), until - AFTER);
            if (until <= after) {
                return;
            }
            goingOn++;
            double lag = median(one, after, until, held) - dueUs;
            boolean isLate = lag > leastUs;
            double missingUs = 0;
            if (signal != null && signal.covers(one.atByte(held), one.atByte(after))) {
                bySignal++;
                missingUs = 1e6 * signal.missingS(one.atByte(held), one.atByte(until));
            } else {
                unseenUs = Math.max(unseenUs, leastUs);
                missingUs = isLate ? lag : 0;
            }
            hit += missingUs > 0 ? 1 : 0;
            lostUs = Math.max(lostUs, missingUs);
            late += isLate || (missingUs > 0 && lag > missingUs / 2) ? 1 : 0;
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

        /** The first chunk from a time on, by the time it was done or arrived. */
        private static int first(Stream one, IntToLongFunction time, double us) {
            int chunk = 0;
            while (chunk < one.chunks() && time.applyAsLong(chunk) < us) {
                chunk++;
            }
            return chunk;
        }
    }
}
