package tracksoak.bench.inspect;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import tracksoak.bench.timecode.SignalTrace;
import tracksoak.report.record.facts.inspection.Finding.Weight;
import tracksoak.report.record.facts.inspection.FindingKind;

/** Holds the test signal of all tracks of a take against each other. Pure. */
final class SignalTogether {

    private static final double MOST_PPM = 200;
    private static final double APART_S = 1e-3;
    private static final double EARLY_S = 0.1;

    /** A track that carries the signal. */
    record Carrier(ScannedTrack track, SignalTrace trace, TrackLine line) {

        double fromS() {
            return line.place(trace.from()).seconds();
        }

        double untilS() {
            return line.place(trace.until()).seconds();
        }

        double lateS() {
            return fromS() - trace.signalAtFrom() / line.format().sampleRateHz();
        }

        double lengthS() {
            return line.place(line.track().samples()).seconds();
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
    static List<Found> weighed(List<Found> signal, int carriers) {
        return signal.stream()
                .map(one -> {
                    boolean players =
                            one.kind() == FindingKind.SIGNAL_PAUSED || one.kind() == FindingKind.SIGNAL_RESTARTED;
                    return players && alike(one, signal) < carriers ? one.weighing(Weight.FAULT) : one;
                })
                .toList();
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
            double ppm = carrier.trace().ppm();
            if (Math.abs(ppm) > MOST_PPM) {
                found.add(Found.whole(
                        FindingKind.CLOCKS,
                        Weight.LISTEN,
                        carrier.track().name(),
                        String.format(Locale.ROOT, "%.0f", ppm)));
            }
        }
    }

    private void starts() {
        double usualFrom = median(Carrier::fromS);
        double usualLate = median(Carrier::lateS);
        for (Carrier carrier : carriers) {
            int rate = carrier.line().format().sampleRateHz();
            double later = carrier.fromS() - usualFrom;
            double apart = carrier.lateS() - usualLate;
            double least = carrier.trace().exact() ? 0.5 / rate : APART_S;
            if (later > EARLY_S) {
                found.add(Found.at(
                                FindingKind.SIGNAL_APART,
                                Weight.LISTEN,
                                carrier.track().name(),
                                carrier.line().place(carrier.trace().from()),
                                later * rate,
                                false)
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
        double last = carriers.stream().mapToDouble(Carrier::untilS).max().orElse(0);
        for (Carrier carrier : carriers) {
            boolean goesOn = carrier.lengthS() > carrier.untilS() + EARLY_S;
            if (goesOn && last - carrier.untilS() > EARLY_S) {
                found.add(Found.at(
                        FindingKind.SIGNAL_ENDS,
                        Weight.FAULT,
                        carrier.track().name(),
                        carrier.line().place(carrier.trace().until()),
                        (last - carrier.untilS()) * carrier.line().format().sampleRateHz(),
                        false));
            }
        }
    }

    private double median(ToDoubleFunction<Carrier> value) {
        double[] sorted = carriers.stream().mapToDouble(value).sorted().toArray();
        return sorted[sorted.length / 2];
    }
}
