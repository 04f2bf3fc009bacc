package tracksoak.report.verdict;

import java.util.function.DoublePredicate;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.MixFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.PlaybackFacts;

/** Who made a criterion be missed. In order of weight: the drive's own miss outweighs every excuse elsewhere. */
enum Blame {
    /** It was not missed. */
    NOBODY,
    /** The run itself had brought the drive to where no show begins. */
    THE_RUN,
    /** The way to the device, through memory or a program, took time in which the device itself had nothing to do. */
    DETOUR,
    /** Other drives on its bus moved data meanwhile. */
    NEIGHBOUR,
    /** Another program used the drive meanwhile. */
    ANOTHER_PROGRAM,
    /** The device's own counters show less than was written: the figures are not the drive's alone. */
    COUNTERS,
    /** The computer was late, slept, or its clock jumped. */
    HOST,
    DRIVE;

    /** Longest sleep or unexplained clock jump that is overlooked, in ms. */
    static final double MOST_SLEEP_MS = 500;

    /** Where sleep is not known: longest the canary may stand still before that counts as sleep, in ms. */
    static final double MOST_STILL_MS = 5_000;

    private static final double SLACK_BYTES = 16 << 20;

    /** What the system itself asks of drives at rest now and then, in bytes. */
    private static final double REST_BYTES = 1 << 20;

    /** Least part of a link's speed that goes into data; between a quarter and four fifths in practice (own limit). */
    private static final double LEAST_OF_LINK = 0.25;

    private static final double MOST_DIRECT = 1.25;
    private static final double MOST_WRITTEN_THROUGH = 2.5;
    private static final double LEAST_WRITTEN = 0.98;

    /** Where the device was busy for less than this part of the time its calls took, the rest was the way to it. */
    private static final double LEAST_BUSY = 0.9;

    Blame worse(Blame other) {
        return compareTo(other) >= 0 ? this : other;
    }

    /**
     * Sorts one miss.
     *
     * @param missed whether the measured figure misses
     * @param without whether it still misses with the delay of the host inside the deciding events, and so many ms more,
     *     taken off
     * @param withoutDetour whether it still misses with {@link #detourMs} taken off
     */
    static Blame of(PhaseFacts phase, JudgedRun run, boolean missed, DoublePredicate without, boolean withoutDetour) {
        if (!missed) {
            return NOBODY;
        }
        if (!without.test(0) || slept(phase.hostDelays())) {
            return HOST;
        }
        if (countersDisagree(phase)) {
            return COUNTERS;
        }
        if (foreignWrites(phase, run.ioMode())) {
            return ANOTHER_PROGRAM;
        }
        double neighbourMs = neighbourMs(phase, run.record.drive().linkMbps());
        if (neighbourMs > 0 && !without.test(neighbourMs)) {
            return NEIGHBOUR;
        }
        if (!withoutDetour) {
            return DETOUR;
        }
        return BeyondShows.began(run.session, run.record.phases(), phase) ? THE_RUN : DRIVE;
    }

    /**
     * How long other drives can have held up the drive's bus at most, in ms: what they moved, at a quarter of the link's speed.
     *
     * @param linkMbps the drive's link, null where it is not known: then any length
     */
    static double neighbourMs(PhaseFacts phase, @Nullable Double linkMbps) {
        double bytes = neighbourBytes(phase);
        if (bytes <= REST_BYTES) {
            return 0;
        }
        return linkMbps == null || linkMbps <= 0
                ? Double.POSITIVE_INFINITY
                : bytes * 8 / (linkMbps * 1000 * LEAST_OF_LINK);
    }

    /** What other drives on the same bus took and gave in a phase, in bytes; 0 where that is not known. */
    private static long neighbourBytes(PhaseFacts phase) {
        DeviceEvidence device = phase.device();
        Long bytes = device == null ? null : device.otherBusBytes();
        return bytes == null ? 0 : bytes;
    }

    /** Whether it is known that no other drive on the same bus moved data in a phase. */
    static boolean alone(PhaseFacts phase) {
        DeviceEvidence device = phase.device();
        return device != null && device.otherBusBytes() != null && device.otherBusBytes() <= REST_BYTES;
    }

    /** The same for a whole run; 0 where it is too little to matter in every phase. */
    static long neighbourBytes(JudgedRun run) {
        return run.record.phases().stream()
                .mapToLong(Blame::neighbourBytes)
                .filter(bytes -> bytes > REST_BYTES)
                .sum();
    }

    /**
     * Time of a phase's calls in which the device had nothing to do, in ms: it went into the way there. 0 where writes take no
     * such way, where it is little, and where the system does not tell how long the device was busy.
     */
    static double detourMs(PhaseFacts phase, IoMode mode) {
        Double busyMs = phase.device() == null ? null : phase.device().busyMs();
        double callsMs = 1000 * phase.busyFraction() * phase.seconds();
        return mode != IoMode.WRITE_THROUGH || busyMs == null || busyMs >= LEAST_BUSY * callsMs ? 0 : callsMs - busyMs;
    }

    /** The device's own part of the time that a phase's calls took, 0…1. */
    static double deviceShare(PhaseFacts phase, IoMode mode) {
        double detourMs = detourMs(phase, mode);
        return detourMs == 0 ? 1 : 1 - detourMs / (1000 * phase.busyFraction() * phase.seconds());
    }

    /** Whether the computer slept, or may have: a clock jump counts where sleep cannot be told from it. */
    static boolean slept(@Nullable HostDelays host) {
        return host != null
                && (host.suspendedMs() > MOST_SLEEP_MS
                        || (!host.sleepKnown()
                                && (Math.abs(host.clockStepMs()) > MOST_SLEEP_MS
                                        || host.canaryMaxMs() > MOST_STILL_MS)));
    }

    /** Delay of the host over a whole phase, in ms. */
    static double hostMs(PhaseFacts phase) {
        HostDelays host = phase.hostDelays();
        return host == null ? 0 : host.canaryTotalMs() + host.ownTotalMs();
    }

    /**
     * Delay of the host inside an event of a phase, in ms: its own, or that of the whole phase where the host was late for so
     * much of it that its delays cannot be told from the drive's: a thread that waits for a processor in the middle of a call
     * leaves no trace of its own.
     */
    static double hostMs(PhaseFacts phase, double ownMs) {
        return Doubts.overloaded(phase) ? Math.max(ownMs, hostMs(phase)) : ownMs;
    }

    /** Whether the device took far more than the bench wrote. File system and journal writes are allowed for. */
    static boolean foreignWrites(PhaseFacts phase, IoMode mode) {
        DeviceEvidence device = phase.device();
        double most = mode == IoMode.WRITE_THROUGH ? MOST_WRITTEN_THROUGH : MOST_DIRECT;
        return device != null && device.bytesWritten() > most * written(phase, device) + SLACK_BYTES;
    }

    /** Whether the device took less than the bench wrote, so that part of it must have stayed in memory. */
    static boolean countersDisagree(PhaseFacts phase) {
        DeviceEvidence device = phase.device();
        return device != null && device.bytesWritten() < LEAST_WRITTEN * written(phase, device);
    }

    /** What the bench itself wrote, in bytes: a playback reads, and writes the mix at most. */
    private static long written(PhaseFacts phase, DeviceEvidence device) {
        if (phase.kind() != PhaseKind.PLAYBACK) {
            return device.payloadBytes();
        }
        PlaybackFacts played = phase.playback();
        MixFacts mix = played == null ? null : played.mix();
        return mix == null ? 0 : mix.bytes();
    }
}
