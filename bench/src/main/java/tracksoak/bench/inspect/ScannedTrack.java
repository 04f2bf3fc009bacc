package tracksoak.bench.inspect;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.timecode.SignalProbe;
import tracksoak.bench.timecode.SignalTrace;
import tracksoak.bench.timecode.SignalTracker;
import tracksoak.report.record.facts.inspection.Finding.Weight;
import tracksoak.report.record.facts.inspection.FindingKind;

/** What the samples of one track showed. One thread. */
final class ScannedTrack {

    private final String name;
    private SignalProbe.Carries carries;
    private @Nullable SignalTracker tracker;
    private @Nullable SignalTrace trace;
    private boolean sounds;
    private boolean silent;
    private long firstNoNumber = -1;
    private long noNumbers;

    ScannedTrack(String name, SignalProbe.Carries carries, @Nullable SignalTracker tracker) {
        this.name = name;
        this.carries = carries;
        this.tracker = tracker;
    }

    String name() {
        return name;
    }

    SignalProbe.Carries carries() {
        return carries;
    }

    /** It carries timecode of another kind. */
    void carriesOther() {
        carries = SignalProbe.Carries.OTHER_TIMECODE;
    }

    /** The test signal is there after all, and is followed from now on. */
    void follow(SignalTracker with) {
        carries = SignalProbe.Carries.TEST_SIGNAL;
        tracker = with;
    }

    /** Whether any of a stretch, or what is right beside it, is the test signal, or lies between the beginning and the end of it. */
    boolean isSignal(long from, long until, long beside) {
        SignalTrace known = trace;
        return known != null && known.found() && from < known.until() + beside && until > known.from() - beside;
    }

    /** Follows the test signal; null where the track carries none. */
    @Nullable
    SignalTracker tracker() {
        return tracker;
    }

    /** What the test signal showed; null where the track carries none. */
    @Nullable
    SignalTrace trace() {
        return trace;
    }

    /** Whether it holds nothing but zeros, or erased memory. */
    boolean silent() {
        return silent;
    }

    void sounds(boolean here) {
        sounds |= here;
    }

    void noNumber(long sample) {
        firstNoNumber = firstNoNumber < 0 ? sample : firstNoNumber;
        noNumbers++;
    }

    /**
     * All was read.
     *
     * @param nothing whether its files hold nothing but zeros or erased memory
     * @param listened whether {@link #sounds} was told of this track alone
     */
    void end(boolean nothing, boolean listened) {
        silent = (nothing || (listened && !sounds)) && tracker == null;
        trace = tracker == null ? null : tracker.end();
    }

    Optional<Found> tellNumbers(TrackLine line) {
        return noNumbers == 0
                ? Optional.empty()
                : Optional.of(line.found(
                        FindingKind.NOT_A_NUMBER, Weight.FAULT, name, firstNoNumber, (double) noNumbers, ""));
    }
}
