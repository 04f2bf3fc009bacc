package tracksoak.bench.standin.learn;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;

/** Which files follow each other as parts of one track: the next begins when the last is full. Stateless. */
final class Succession {

    private static final long WITHIN_US = 1_500_000;

    private Succession() {}

    /** Size at which files were full; empty where none was followed by another. */
    static OptionalLong limit(List<Stream> streams) {
        Column full = new Column();
        for (Stream one : streams) {
            long end = one.arrivedUs(one.chunks() - 1);
            double within = Math.max(WITHIN_US, 2 * one.periodUs());
            boolean followed = streams.stream()
                    .anyMatch(next -> next != one
                            && next.arrivedUs(0) > end
                            && next.arrivedUs(0) - end <= within
                            && similar(next, one));
            if (followed) {
                full.add(one.file().sizeBytes());
            }
        }
        long size = full.mode();
        return full.isEmpty() || full.count(size) * 2 < full.size() ? OptionalLong.empty() : OptionalLong.of(size);
    }

    private static boolean similar(Stream next, Stream one) {
        return Math.abs(next.periodUs() - one.periodUs()) < one.periodUs() * 0.1;
    }

    /** The most files that were written at the same time. */
    static List<Stream> together(List<Stream> streams) {
        List<Stream> most = List.of();
        for (Stream one : streams) {
            long us = (one.arrivedUs(0) + one.arrivedUs(one.chunks() - 1)) / 2;
            List<Stream> here = new ArrayList<>();
            for (Stream other : streams) {
                if (other.arrivedUs(0) <= us && other.arrivedUs(other.chunks() - 1) >= us) {
                    here.add(other);
                }
            }
            if (here.size() > most.size() || (here.size() == most.size() && chunks(here) > chunks(most))) {
                most = here;
            }
        }
        return most;
    }

    /** All files of the take that some belong to: those before and after them that follow each other without a pause. */
    static List<Stream> take(List<Stream> streams, List<Stream> some) {
        List<Stream> take = new ArrayList<>(some);
        for (int before = 0; before < take.size(); ) {
            before = take.size();
            long firstUs =
                    take.stream().mapToLong(one -> one.arrivedUs(0)).min().orElse(0);
            long lastUs = take.stream()
                    .mapToLong(one -> one.arrivedUs(one.chunks() - 1))
                    .max()
                    .orElse(0);
            for (Stream one : streams) {
                double within = Math.max(WITHIN_US, 2 * one.periodUs());
                if (!take.contains(one)
                        && one.arrivedUs(0) <= lastUs + within
                        && one.arrivedUs(one.chunks() - 1) >= firstUs - within) {
                    take.add(one);
                }
            }
        }
        return take;
    }

    private static int chunks(List<Stream> streams) {
        return streams.stream().mapToInt(Stream::chunks).sum();
    }
}
