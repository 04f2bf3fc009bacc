package tracksoak.bench.standin.probe;

import java.util.OptionalDouble;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import java.util.function.LongConsumer;
import tracksoak.bench.recorder.watch.HostWatch;
import tracksoak.bench.standin.FreshBytes;
import tracksoak.bench.standin.RequestWatch;
import tracksoak.bench.standin.Stops;
import tracksoak.bench.standin.trace.Asked;
import tracksoak.bench.standin.trace.Entry;
import tracksoak.bench.standin.trace.Note;
import tracksoak.profiles.base.Units;

/**
 * Watches a recording on a stand-in and has the drive stop, one stop at a time with rest between, as its {@link ProbePlan} says.
 * Whether audio was lost is told here by whether new audio keeps up with the time that has passed; the reader of
 * trace and image looks again afterwards, file by file. Called by the thread that serves.
 */
public final class Probe implements RequestWatch {

    private static final long SECOND_US = 1_000_000;
    private static final long SILENCE_US = 12 * SECOND_US;
    /** Of a computer that was late for more of the time nothing is believed. */
    private static final double MOST_HOST_PART = 0.25;

    private static final double CLOCK_US = 4_000;

    private static final double A_PIECE = 0.4;
    /** Less of a round of all files than one chunk of one of them, unless there are more than a hundred. */
    private static final double PART_OF_ROUND = 0.01;

    /** Told when nothing is left to try. */
    public static final String ALL_TRIED = "all is tried";

    /** What is being done. */
    public enum State {
        /** The recorder records nothing yet, or stopped. */
        WAITING,
        /** Its rate is measured. */
        LEARNING,
        /** The recorder rests between two stops. */
        RESTING,
        /** A stop is asked for, or under way. */
        STOPPING,
        /** The recorder catches up, and is then looked at. */
        LOOKING,
        /** A person is to say whether audio was lost: the trace shows none. */
        ASKING,
        DONE
    }

    /**
     * How much time is taken, in µs.
     *
     * @param learningUs at least, to measure the rate
     * @param windowUs at least, to look at the recorder before and after a stop
     */
    public record Pace(long learningUs, long windowUs) {

        /** Enough for any recorder. */
        public static final Pace USUAL = new Pace(12 * SECOND_US, 4 * SECOND_US);
    }

    private final ProbePlan plan;
    private final Pace pace;
    private final Stops stops;
    private final HostWatch host;
    private final boolean personTells;
    private final Consumer<String> told;
    private final LongConsumer fellShort;
    private final FreshBytes fresh;
    private final GrowthLine line = new GrowthLine();
    private State state = State.WAITING;
    private long runUs;
    private long armedUs;
    private long stopAtUs;
    private long stopUs;
    private long windowUs;
    private double slope;
    private double baseEdge;
    /** No less than this is missing where audio was lost. */
    private double noiseBytes;

    private long steadySinceUs;
    private double triedS;

    /**
     * @param host knows when the computer itself was late, in ns since the trace began
     * @param personTells whether a person is asked where the trace shows no loss
     * @param told hears what happens, one sentence each
     * @param fellShort hears of each stop after which all tracks together fell short, by how many µs; 0 where that is not known
     */
    public Probe(
            ProbePlan plan,
            Pace pace,
            Stops stops,
            long driveBytes,
            HostWatch host,
            boolean personTells,
            Consumer<String> told,
            LongConsumer fellShort) {
        this.plan = plan;
        this.pace = pace;
        this.stops = stops;
        this.host = host;
        this.personTells = personTells;
        this.told = told;
        this.fellShort = fellShort;
        this.fresh = new FreshBytes(driveBytes);
    }

    /** What is being done. */
    public State state() {
        return state;
    }

    /** Whether nothing is left to try. */
    public boolean done() {
        return state == State.DONE;
    }

    @Override
    public void answered(Entry entry) {
        if (entry.is(Note.STOP)) {
            stopAtUs = entry.arrivedUs();
            stopUs = entry.length();
        }
        if (entry.asked() == Asked.NOTE) {
            return; // also its own: it is told while a stop is judged
        }
        if (entry.asked() == Asked.WRITE && !entry.failed()) {
            long bytes = fresh.add(entry.offset(), entry.length());
            if (bytes > 0) {
                if (state == State.WAITING) {
                    line.clear();
                    runUs = entry.arrivedUs();
                    become(State.LEARNING, "the recorder writes: its rate is measured");
                }
                if (entry.arrivedUs() - line.lastUs() > Math.max(2 * SECOND_US, 3 * line.longestGapUs())) {
                    steadySinceUs = entry.arrivedUs();
                }
                line.add(entry.arrivedUs(), bytes);
            }
        }
        tick(entry.doneUs());
    }

    /** Time has passed; in µs since the trace began. */
    public void tick(long nowUs) {
        switch (state) {
            case LEARNING -> learn(nowUs);
            case RESTING -> rest(nowUs);
            case STOPPING -> {
                if (stopUs > 0 && nowUs >= stopAtUs + stopUs) {
                    state = State.LOOKING;
                } else if (stopUs == 0) {
                    silent(nowUs);
                    armAgain(nowUs);
                }
            }
            case LOOKING -> look(nowUs);
            case WAITING, ASKING, DONE -> {}
        }
    }

    private void silent(long nowUs) {
        if (nowUs - line.lastUs() > Math.max(SILENCE_US, 4 * line.longestGapUs())) {
            become(State.WAITING, "nothing more is recorded: start the recorder again");
        }
    }

    private void learn(long nowUs) {
        silent(nowUs);
        if (state != State.LEARNING || nowUs - runUs < pace.learningUs()) {
            return;
        }
        line.measure(runUs + 2 * SECOND_US);
        windowUs = Math.max(pace.windowUs(), 2 * line.longestGapUs());
        if (nowUs - runUs < 4 * windowUs || line.longestGapUs() == 0) {
            return;
        }
        long from = runUs + 2 * SECOND_US;
        slope = line.slope(from, line.lastUs() + 1, windowUs);
        double unsteady = Math.min(2 * line.unsteady(from, windowUs, slope), slope * line.longestGapUs() / 2);
        unsteady = Math.max(unsteady, slope * line.longestGapUs() * PART_OF_ROUND);
        noiseBytes = Math.max(unsteady, Math.max(A_PIECE * line.usualBytes(), slope * CLOCK_US));
        told.accept("it writes " + Units.rate(slope * 1e6) + "; now the stops begin");
        next();
    }

    /** Asks for the next stop, or ends. */
    private void next() {
        OptionalDouble length = plan.next();
        if (length.isEmpty()) {
            become(State.DONE, ALL_TRIED);
            return;
        }
        triedS = length.getAsDouble();
        state = State.RESTING;
    }

    /** Waits until the recorder has written evenly for a while, then asks for the stop. */
    private void rest(long nowUs) {
        silent(nowUs);
        if (state != State.RESTING || line.lastUs() - steadySinceUs < windowUs) {
            return;
        }
        baseEdge = line.edge(line.lastUs() - windowUs, line.lastUs() + 1, slope);
        stopUs = 0;
        state = State.STOPPING;
        arm(nowUs);
    }

    private void arm(long nowUs) {
        armedUs = nowUs;
        stops.arm((long) (triedS * 1e9), TimeUnit.MICROSECONDS.toNanos(line.longestGapUs() / 2));
    }

    /** After a loss files may be out of step, and the pause that is waited for never comes again: the usual one is looked for anew. */
    private void armAgain(long nowUs) {
        if (state == State.STOPPING && nowUs - armedUs > Math.max(windowUs, 4 * line.longestGapUs())) {
            line.measure(nowUs - windowUs);
            arm(nowUs);
        }
    }

    private void look(long nowUs) {
        long from = stopAtUs + stopUs + Math.max(stopUs, Math.max(SECOND_US, 2 * line.longestGapUs()));
        if (line.lastUs() < stopAtUs + stopUs + SECOND_US && nowUs > from + SILENCE_US) {
            plan.surelyLost(triedS);
            fellShort.accept(0);
            become(State.WAITING, words() + ": the recorder ended the take. Start it again");
            return;
        }
        if (nowUs < from + windowUs) {
            return;
        }
        if (host.delayNs(stopAtUs * 1000, nowUs * 1000) > MOST_HOST_PART * (nowUs - stopAtUs) * 1000) {
            plan.unclear();
            told.accept(words() + ": this computer was busy itself, so it is tried again");
            again(from);
            return;
        }
        double missing = baseEdge - line.edge(from, from + windowUs, slope);
        boolean lost = missing > noiseBytes;
        if (personTells && !lost) {
            state = State.ASKING;
            told.accept(words() + ": was audio lost?");
        } else {
            judge(lost, from, missing / slope / 1e6);
        }
    }

    private void judge(boolean lost, long from, double missingS) {
        if (lost) {
            plan.lost(triedS);
            fellShort.accept(missingS > 0 && Double.isFinite(missingS) ? Math.round(missingS * 1e6) : 0);
            told.accept(words() + ": audio was lost"
                    + (missingS > 0 && Double.isFinite(missingS)
                            ? ", about " + Units.seconds(missingS) + " of what all tracks make"
                            : ""));
        } else {
            plan.held(triedS);
            told.accept(words() + ": held");
        }
        again(from);
    }

    private void again(long from) {
        steadySinceUs = Math.max(steadySinceUs, from);
        next();
    }

    /** A person says whether audio was lost in the stop that was last; nothing else is heard. */
    public void person(boolean lost) {
        if (state == State.ASKING) {
            judge(lost, line.lastUs(), 0);
        }
    }

    private String words() {
        return "a stop of " + Units.seconds(triedS);
    }

    private void become(State next, String words) {
        state = next;
        told.accept(words);
    }
}
