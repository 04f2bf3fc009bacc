package tracksoak.bench.inspect;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import tracksoak.bench.timecode.SignalBreak;
import tracksoak.bench.timecode.SignalTrace;
import tracksoak.report.record.facts.inspection.Finding.Weight;
import tracksoak.report.record.facts.inspection.FindingKind;

/** Holds the test signal of all tracks of a take against each other. Pure. */
final class SignalTogether {

    private static final double MOST_PPM = 200;
    private static final double APART_S = 1e-3;
    private static final double EARLY_S = 0.1;

    /** So near the end a signal that came through something analogue cannot be followed. */
    private static final double NEAR_END_S = 0.02;

    /** Where every sample is compared, so many may fit by chance. */
    private static final double BY_CHANCE = 2.5;

    /** A track that carries the signal. */
    record Carrier(ScannedTrack track, SignalTrace trace, TrackLine line) {

        double fromS() {
            return line.place(trace.from()).seconds();
        }

        double lateS() {
            return fromS() - trace.signalAtFrom() / line.format().sampleRateHz();
        }

        /** So much of the track lies behind the signal. */
        double behindS() {
            return (double) (line.track().samples() - trace.until()) / rate();
        }

        /** Place in the signal that it reaches. */
        double reachedS() {
            List<SignalBreak> breaks = trace.breaks();
            SignalBreak last = breaks.isEmpty()
                    ? new SignalBreak(trace.from(), trace.from(), 0, trace.signalAtFrom(), true)
                    : breaks.get(breaks.size() - 1);
            return (last.signalAt() + (trace.until() - last.until()) / (1 + trace.ppm() * 1e-6)) / rate();
        }

        int rate() {
            return line.format().sampleRateHz();
        }

        /** Whether the clocks differ so much that nothing is certain. */
        boolean clocksApart() {
            return Math.abs(trace.ppm()) > MOST_PPM;
        }
    }

    private final List<Carrier> carriers;
    private final List<Found> found = new ArrayList<>();

    private SignalTogether(List<Carrier> carriers) {
        this.carriers = carriers;
    }

    /** What is found besides what each track shows alone. */
    static List<Found> of(List<Carrier> carriers) {
        SignalTogether together = new SignalTogether(carriers);
        if (!carriers.isEmpty()) {
            together.clocks();
        }
        if (carriers.size() > 1) {
            together.starts();
            together.ends();
        }
        return together.found;
    }

    /** What only one track shows was not done by the player, and so is the recorder's. */
    static List<Found> weighed(List<Found> signal, List<Carrier> carriers) {
        return signal.stream()
                .map(one -> {
                    boolean players =
                            one.kind() == FindingKind.SIGNAL_PAUSED || one.kind() == FindingKind.SIGNAL_RESTARTED;
                    boolean fault = one.weight() == Weight.FAULT || (players && alike(one, signal) < carriers.size());
                    return fault ? one.weighing(surest(one, carriers)) : one;
                })
                .toList();
    }

    private static Weight surest(Found one, List<Carrier> carriers) {
        boolean apart = carriers.stream()
                .anyMatch(carrier ->
                        carrier.clocksApart() && carrier.track().name().equals(one.where()));
        return apart ? Weight.LISTEN : Weight.FAULT;
    }

    private static long alike(Found one, List<Found> all) {
        return all.stream()
                .filter(other -> other.kind() == one.kind() && near(other, one))
                .map(Found::where)
                .distinct()
                .count();
    }

    private static boolean near(Found a, Found b) {
        Double at = a.atS();
        Double other = b.atS();
        return at != null && other != null && Math.abs(at - other) < EARLY_S;
    }

    private void clocks() {
        for (Carrier carrier : carriers) {
            if (carrier.clocksApart()) {
                found.add(Found.whole(
                        FindingKind.CLOCKS,
                        Weight.LISTEN,
                        carrier.track().name(),
                        String.format(Locale.ROOT, "%.0f", carrier.trace().ppm())));
            }
        }
    }

    private void starts() {
        double usualFrom = median(Carrier::fromS);
        double usualLate = median(Carrier::lateS);
        double usualFirst = median(carrier -> carrier.trace().signalAtFrom() / carrier.rate());
        for (Carrier carrier : carriers) {
            int rate = carrier.rate();
            double later = carrier.fromS() - usualFrom;
            double notHeld = carrier.trace().signalAtFrom() / rate - usualFirst;
            boolean spoilt =
                    carrier.trace().exact() && carrier.trace().from() > BY_CHANCE && notHeld > BY_CHANCE / rate;
            double apart = carrier.lateS() - usualLate;
            double least = carrier.trace().exact() ? 0.5 / rate : APART_S;
            if (later > EARLY_S || spoilt) {
                found.add(Found.at(
                                FindingKind.SIGNAL_APART,
                                Weight.LISTEN,
                                carrier.track().name(),
                                carrier.line().place(carrier.trace().from()),
                                later > EARLY_S ? later * rate : Math.rint(notHeld * rate),
                                later <= EARLY_S)
                        .with("later"));
            } else if (Math.abs(apart) > least) {
                found.add(Found.at(
                                FindingKind.SIGNAL_APART,
                                Math.abs(apart) > APART_S ? Weight.LISTEN : Weight.NOTE,
                                carrier.track().name(),
                                carrier.line().place(carrier.trace().from()),
                                Math.abs(apart) * rate,
                                carrier.trace().exact())
                        .with("shifted"));
            }
        }
    }

    private void ends() {
        List<Carrier> known = carriers.stream()
                .filter(carrier -> carrier.trace().moreBreaks() == 0)
                .toList();
        for (Carrier carrier : known) {
            Carrier furthest = carrier;
            for (Carrier other : known) {
                boolean further = other.reachedS() > furthest.reachedS();
                furthest = further && other.reachedS() - carrier.reachedS() > near(carrier, other) ? other : furthest;
            }
            if (!furthest.equals(carrier) && carrier.behindS() > near(carrier, furthest)) {
                boolean exact = carrier.trace().exact() && furthest.trace().exact();
                double missing = (furthest.reachedS() - carrier.reachedS()) * carrier.rate();
                found.add(Found.at(
                        FindingKind.SIGNAL_ENDS,
                        carrier.clocksApart() || furthest.clocksApart() ? Weight.LISTEN : Weight.FAULT,
                        carrier.track().name(),
                        carrier.line().place(carrier.trace().until()),
                        exact ? Math.rint(missing) : missing,
                        exact));
            }
        }
    }

    private static double near(Carrier one, Carrier other) {
        return one.trace().exact() && other.trace().exact()
                ? BY_CHANCE / Math.min(one.rate(), other.rate())
                : NEAR_END_S;
    }

    private double median(ToDoubleFunction<Carrier> value) {
        double[] sorted = carriers.stream().mapToDouble(value).sorted().toArray();
        return sorted[sorted.length / 2];
    }
}
