package tracksoak.bench.oracle;

import java.io.IOException;
import java.util.Arrays;
import tracksoak.profiles.Session;

/**
 * A fill once more, from every single write: the bytes of a write are spread evenly over its time, the floor is the lowest
 * mean rate over any 10 s, the rule of steadiness is that of SNIA PTS 2.0.2, §2.1.24. It ends with the first round that is
 * steady once the session's bytes are written, five rounds later if none is, or earlier at a steady round if the mean of the
 * last 60 is below the need and, if it stays so, its cap comes before those bytes; and at its cap. Times in ns since it began.
 */
final class BruteFill {

    private static final long SECOND = 1_000_000_000L;
    private static final long WINDOW = 10 * SECOND;
    private static final int ROUNDS_FOR_GOOD = 60;

    private final long round;
    private long[] fromNs = new long[1024];
    private long[] toNs = new long[1024];
    private long[] bytesBefore = new long[1025];
    private int roundsBeyond;
    private int count;

    private BruteFill(double roundS) {
        round = Math.round(roundS * 1e9);
    }

    /** Fills until it is over; the files are made in its own time and stay open. */
    static BruteFill of(Session session, DriveServer server, double capS, double roundS) throws IOException {
        BruteFill fill = new BruteFill(roundS);
        int streams = session.streams().size();
        long startNs = server.nowNs();
        server.begin(streams);
        long rounds = 0;
        while (true) {
            long from = server.nowNs();
            server.write(fill.count % streams, session.chunkBytes());
            fill.add(from - startNs, server.nowNs() - startNs, session.chunkBytes());
            boolean newRound = fill.endNs() / fill.round > rounds;
            rounds = fill.endNs() / fill.round;
            if ((newRound && fill.ends(session, capS)) || fill.endNs() >= Math.round(capS * 1e9)) {
                return fill;
            }
        }
    }

    int writes() {
        return count;
    }

    long bytes() {
        return bytesBefore[count];
    }

    long endNs() {
        return toNs[count - 1];
    }

    double meanBytesPerSecond() {
        return bytes() * 1e9 / endNs();
    }

    private void add(long from, long to, int bytes) {
        if (count == fromNs.length) {
            fromNs = Arrays.copyOf(fromNs, 2 * count);
            toNs = Arrays.copyOf(toNs, 2 * count);
            bytesBefore = Arrays.copyOf(bytesBefore, 2 * count + 1);
        }
        fromNs[count] = from;
        toNs[count] = to;
        bytesBefore[count + 1] = bytesBefore[count] + bytes;
        count++;
    }

    /** Bytes written by {@code ns}, those of the write under way in part. */
    private double at(long ns) {
        int write = Arrays.binarySearch(toNs, 0, count, ns);
        int next = write >= 0 ? write + 1 : -write - 1;
        if (next >= count) {
            return bytesBefore[count];
        }
        double share = Math.max(0, ns - fromNs[next]) / (double) (toNs[next] - fromNs[next]);
        return bytesBefore[next] + share * (bytesBefore[next + 1] - bytesBefore[next]);
    }

    /** At the end of a round: by the bytes of the session, or for being too slow all along. */
    private boolean ends(Session session, double capS) {
        long show = session.bytesPerSecond() * session.lengthS();
        if (bytes() >= show) {
            roundsBeyond++;
            return steady() || roundsBeyond > 5;
        }
        long whole = endNs() / round;
        long first = Math.max(0, whole - ROUNDS_FOR_GOOD);
        double mean = (at(whole * round) - at(first * round)) * 1e9 / ((whole - first) * round);
        double byItsCap = bytes() + mean * (capS - whole * round / 1e9);
        return steady() && mean < session.margins().rate() * session.bytesPerSecond() && byItsCap < show;
    }

    boolean steady() {
        int rounds = (int) (endNs() / round);
        if (rounds < 5) {
            return false;
        }
        double[] y = new double[5];
        double mean = 0;
        for (int i = 0; i < 5; i++) {
            long from = (rounds - 5 + i) * round;
            y[i] = at(from + round) - at(from);
            mean += y[i] / 5;
        }
        double slope = (-2 * y[0] - y[1] + y[3] + 2 * y[4]) / 10;
        double range =
                Arrays.stream(y).max().orElseThrow() - Arrays.stream(y).min().orElseThrow();
        return range <= 0.2 * mean * (1 + 1e-9) && Math.abs(4 * slope) <= 0.1 * mean * (1 + 1e-9);
    }

    /** The lowest mean over any 10 s of the whole fill, in B/s: some edge is a write's. */
    double floor() {
        long to = endNs();
        if (to <= WINDOW) {
            return meanBytesPerSecond();
        }
        double least = Math.min(at(WINDOW), at(to) - at(to - WINDOW));
        for (int i = 0; i < count; i++) {
            for (long edge : new long[] {fromNs[i], toNs[i], fromNs[i] - WINDOW, toNs[i] - WINDOW}) {
                if (edge >= 0 && edge + WINDOW <= to) {
                    least = Math.min(least, at(edge + WINDOW) - at(edge));
                }
            }
        }
        return least / 10;
    }
}
