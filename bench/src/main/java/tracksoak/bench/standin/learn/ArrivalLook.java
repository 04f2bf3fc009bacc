package tracksoak.bench.standin.learn;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tracksoak.bench.standin.learn.Evidence.Stop;
import tracksoak.profiles.Arrival;

/** Whether the chunks of all files fall due together, and in which order they are written. Confined to one thread. */
final class ArrivalLook {

    private static final int ROUNDS = 60;

    private final List<Stream> streams;
    private final List<Stop> stops;
    private final Stream first;
    private final List<Integer> rounds = new ArrayList<>();

    ArrivalLook(List<Stream> streams, List<Stop> stops) {
        this.streams = streams.stream()
                .filter(one -> one.periodUs() > 0 && alike(one, streams.get(0)))
                .toList();
        this.stops = stops;
        this.first = this.streams.isEmpty() ? streams.get(0) : this.streams.get(0);
        for (int i = 1; i + 1 < first.chunks() && rounds.size() < ROUNDS; i++) {
            if (quiet(first.arrivedUs(i))) {
                rounds.add(i);
            }
        }
    }

    /** Files of the same take, at the same rate: others may tick otherwise. */
    private static boolean alike(Stream one, Stream other) {
        return Math.abs(one.periodUs() - other.periodUs()) < other.periodUs() * 0.02
                && Math.abs(one.arrivedUs(0) - other.arrivedUs(0)) < 4 * other.periodUs();
    }

    private boolean quiet(long us) {
        double period = first.periodUs();
        return stops.stream()
                .noneMatch(stop -> us > stop.atUs() - 2 * period && us < stop.endUs() + stop.lengthUs() + 4 * period);
    }

    /** Empty where there is one file, or too little to see. */
    Optional<Arrival> arrival() {
        if (streams.size() < 2 || rounds.size() < 3) {
            return Optional.empty();
        }
        double[] phases = new double[streams.size()];
        for (int i = 0; i < phases.length; i++) {
            Column offsets = new Column();
            for (int round : rounds) {
                offsets.add((long) after(streams.get(i), first.arrivedUs(round) - first.periodUs() / 2));
            }
            phases[i] = offsets.median();
        }
        Arrays.sort(phases);
        double widest = phases[0] + first.periodUs() - phases[phases.length - 1];
        for (int i = 1; i < phases.length; i++) {
            widest = Math.max(widest, phases[i] - phases[i - 1]);
        }
        double even = first.periodUs() / phases.length;
        return Optional.of(widest > (first.periodUs() + even) / 2 ? Arrival.BURST : Arrival.STAGGERED);
    }

    /** How long after a moment a file's next chunk arrived, folded into one period. */
    private double after(Stream stream, double us) {
        int chunk = from(stream, us);
        double later = chunk < stream.chunks() ? stream.arrivedUs(chunk) - us : 0;
        return later % first.periodUs();
    }

    private static int from(Stream stream, double us) {
        int low = 0;
        int high = stream.chunks();
        while (low < high) {
            int middle = (low + high) / 2;
            if (stream.arrivedUs(middle) < us) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** Whether each round writes the files in the same order; empty where there is one file, or too little to see. */
    Optional<Boolean> sameOrder() {
        if (streams.size() < 2 || rounds.size() < 3) {
            return Optional.empty();
        }
        Map<List<Integer>, Integer> seen = new HashMap<>();
        for (int round : rounds) {
            double begin = first.arrivedUs(round) - first.periodUs() / (4.0 * streams.size());
            List<Integer> order = new ArrayList<>();
            for (int i = 0; i < streams.size(); i++) {
                order.add(i);
            }
            order.sort(
                    (a, b) -> Double.compare(arrivedAfter(streams.get(a), begin), arrivedAfter(streams.get(b), begin)));
            seen.merge(order, 1, Integer::sum);
        }
        int most = seen.values().stream().mapToInt(Integer::intValue).max().orElse(0);
        return Optional.of(most * 10 >= rounds.size() * 9);
    }

    private static double arrivedAfter(Stream stream, double us) {
        int chunk = from(stream, us);
        return chunk < stream.chunks() ? stream.arrivedUs(chunk) : Double.MAX_VALUE;
    }
}
