package tracksoak.bench.standin.probe;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.recorder.watch.HostWatch;
import tracksoak.bench.standin.RequestWatch;
import tracksoak.bench.standin.VirtualStandIn;
import tracksoak.bench.standin.learn.BufferFound;
import tracksoak.bench.standin.learn.BufferReader;
import tracksoak.bench.standin.learn.Learner;
import tracksoak.bench.standin.learn.Pattern;
import tracksoak.bench.standin.model.ModelRecorder;
import tracksoak.bench.standin.model.RecorderModel;
import tracksoak.bench.standin.trace.Note;
import tracksoak.profiles.base.VirtualClock;

/** What is learnt of a recorder of which everything is known, on virtual time. */
record Recorded(Pattern pattern, BufferFound buffer) {

    private static final long DRIVE = 24L << 30;
    private static final long PLAIN_NS = 120_000_000_000L;
    private static final long LIMIT_NS = 3_600_000_000_000L;

    /** Of two minutes on a drive that does not stop. */
    static Recorded plain(RecorderModel model, Path trace) throws IOException {
        VirtualClock clock = new VirtualClock(0);
        try (VirtualStandIn drive = new VirtualStandIn(DRIVE, clock, trace, RequestWatch.NONE)) {
            new ModelRecorder(model, clock, drive, DRIVE).record(() -> clock.nanoTime() < PLAIN_NS);
            return of(drive, trace);
        }
    }

    /** Of a probe. */
    static Recorded probed(RecorderModel model, Path trace) throws IOException {
        return probed(model, trace, 20, (stream, chunk) -> null, null);
    }

    /** What a person answers who is asked whether audio was lost. */
    @FunctionalInterface
    interface Person {
        boolean lost(boolean trulyLost);
    }

    /**
     * Of a probe.
     *
     * @param audio what is recorded
     * @param person who is asked; null for nobody
     */
    static Recorded probed(
            RecorderModel model, Path trace, double longestS, ModelRecorder.Audio audio, @Nullable Person person)
            throws IOException {
        VirtualClock clock = new VirtualClock(0);
        List<String> told = new ArrayList<>();
        Probe[] probe = new Probe[1];
        RequestWatch watch = entry -> {
            if (probe[0] != null) {
                probe[0].answered(entry);
            }
        };
        try (VirtualStandIn drive = new VirtualStandIn(DRIVE, clock, trace, watch)) {
            ProbePlan plan = new ProbePlan(0.25, longestS, 0.02);
            probe[0] = new Probe(
                    plan,
                    Probe.Pace.USUAL,
                    drive.stops(),
                    DRIVE,
                    HostWatch.NONE,
                    person != null,
                    told::add,
                    us -> drive.note(Note.FELL_SHORT, us));
            ModelRecorder recorder = new ModelRecorder(model, clock, drive, DRIVE, audio);
            long[] heard = new long[1];
            recorder.record(() -> {
                if (person != null && probe[0].state() == Probe.State.ASKING) {
                    boolean lost = person.lost(recorder.lostChunks() > heard[0]);
                    heard[0] = recorder.lostChunks();
                    drive.note(lost ? Note.HEARD_LOST : Note.HEARD_NONE, 0);
                    probe[0].person(lost);
                }
                return !probe[0].done() && clock.nanoTime() < LIMIT_NS;
            });
            if (!probe[0].done()) {
                throw new AssertionError("the probe of " + model + " did not end: " + told);
            }
            return of(drive, trace);
        }
    }

    private static Recorded of(VirtualStandIn drive, Path trace) throws IOException {
        drive.endTrace();
        return new Recorded(Learner.learn(trace, drive.bytes()), BufferReader.read(trace, drive.bytes()));
    }
}
