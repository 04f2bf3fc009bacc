package tracksoak.bench.oracle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.RunRecord;

/**
 * The fill's floor, its steady state and its end against plain arithmetic over every single write, from the drive's model
 * alone: the bytes of a write are spread evenly over its time, the floor is the lowest mean rate over any 10 s, the rule of
 * steadiness is that of SNIA PTS 2.0.2, §2.1.24. A fill ends with the first round that is steady once the session's bytes are
 * written, five rounds later if none is, or earlier at a steady round if the mean of all so far is below the need; the cap
 * leaves no room for more than that rule.
 */
class FloorOracleTest {

    private static final long FIRST_SEED = 40_260_000L;
    private static final long SECOND = 1_000_000_000L;
    private static final long ROUND = 10 * SECOND;
    private static final double CAP_S = 200;

    /** Sums of up to 10¹¹ B in double precision, each within 2⁻⁵³ of itself. */
    private static final double ROUNDING_BYTES = 1e-3;

    /** 60 seeds in each build, 3,000 others at night. */
    @Test
    void floorAgreesWithPlainArithmetic() throws IOException {
        compare(FIRST_SEED, 60);
    }

    @Test
    @Tag("nightly")
    @Timeout(value = 2, unit = TimeUnit.HOURS)
    void floorAgreesAllNight() throws IOException {
        compare(FIRST_SEED + 1_000_000, 3_000);
    }

    private static void compare(long firstSeed, int count) throws IOException {
        int steady = 0;
        double worst = 0;
        for (long seed = firstSeed; seed < firstSeed + count; seed++) {
            Trial trial = Trial.of(seed);
            Session session = Sessions.shortSession(trial.session());
            RunRecord record = WholeRun.of(
                    session,
                    trial.drive(),
                    Plan.named(PlanName.SOUND_CHECK)
                            .fillCap(CAP_S)
                            .takeAfter(1)
                            .shortened()
                            .plan());
            PhaseFacts phase = record.phases().get(0);
            FillFacts fill = Objects.requireNonNull(phase.fill());
            Writes writes = Writes.untilOver(session, trial);
            String named = "seed " + seed + ": ";
            assertThat(phase.operations()).as(named + "writes").isEqualTo(writes.count);
            assertThat(phase.bytes()).as(named + "bytes").isEqualTo(writes.bytesBefore[writes.count]);
            assertThat(phase.seconds()).as(named + "seconds").isCloseTo(writes.endNs() / 1e9, within(1e-6));
            assertThat(fill.steady()).as(named + "steady").isEqualTo(writes.steady());
            double floor = writes.floor();
            worst = Math.max(worst, Math.abs(fill.floorBytesPerSecond() - floor) * 10);
            assertThat(fill.floorBytesPerSecond())
                    .as(named + "floor in B/s")
                    .isCloseTo(floor, within(ROUNDING_BYTES / 10));
            steady += fill.steady() ? 1 : 0;
        }
        System.out.printf(
                Locale.ROOT,
                "floors: seeds %d to %d, %d steady, worst difference %.6f B in 10 s%n",
                firstSeed,
                firstSeed + count - 1,
                steady,
                worst);
        assertThat(steady).as("fills that became steady").isBetween(count / 10, count - 1);
    }

    /** Every write of a fill: when it ended and how much was written by then. */
    private static final class Writes {

        private long[] fromNs = new long[1024];
        private long[] toNs = new long[1024];
        private long[] bytesBefore = new long[1025];
        private int count;

        static Writes untilOver(Session session, Trial trial) throws IOException {
            int streams = session.streams().size();
            DriveServer server = new DriveServer(trial.drive(), streams);
            Writes writes = new Writes();
            long rounds = 0;
            while (true) {
                long from = server.nowNs();
                server.write(writes.count % streams, session.chunkBytes());
                writes.add(from, server.nowNs(), session.chunkBytes());
                boolean newRound = writes.endNs() / ROUND > rounds;
                rounds = writes.endNs() / ROUND;
                if ((newRound && writes.ends(session)) || writes.endNs() >= CAP_S * SECOND) {
                    return writes;
                }
            }
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

        long endNs() {
            return toNs[count - 1];
        }

        /** Bytes written by {@code ns}, those of the write under way in part. */
        double at(long ns) {
            int write = Arrays.binarySearch(toNs, 0, count, ns);
            int next = write >= 0 ? write + 1 : -write - 1;
            if (next >= count) {
                return bytesBefore[count];
            }
            double share = Math.max(0, ns - fromNs[next]) / (double) (toNs[next] - fromNs[next]);
            return bytesBefore[next] + share * (bytesBefore[next + 1] - bytesBefore[next]);
        }

        private int roundsBeyond;

        /** At the end of a round: by the bytes of the session, or for being too slow all along. */
        boolean ends(Session session) {
            double need = session.margins().rate() * session.bytesPerSecond();
            if (bytesBefore[count] >= session.bytesPerSecond() * session.lengthS()) {
                roundsBeyond++;
                return steady() || roundsBeyond > 5;
            }
            long whole = endNs() / ROUND;
            return steady() && at(whole * ROUND) / (whole * 10.0) < need;
        }

        boolean steady() {
            int rounds = (int) (endNs() / ROUND);
            if (rounds < 5) {
                return false;
            }
            double[] y = new double[5];
            double mean = 0;
            for (int i = 0; i < 5; i++) {
                long from = (rounds - 5 + i) * ROUND;
                y[i] = at(from + ROUND) - at(from);
                mean += y[i] / 5;
            }
            double slope = (-2 * y[0] - y[1] + y[3] + 2 * y[4]) / 10;
            double range = Arrays.stream(y).max().orElseThrow()
                    - Arrays.stream(y).min().orElseThrow();
            return range <= 0.2 * mean * (1 + 1e-9) && Math.abs(4 * slope) <= 0.1 * mean * (1 + 1e-9);
        }

        /** The lowest mean over any 10 s of the whole fill: some edge is a write's. */
        double floor() {
            long from = 0;
            long to = endNs();
            if (to - from <= ROUND) {
                return (at(to) - at(from)) * 1e9 / (to - from);
            }
            double least = Math.min(at(from + ROUND) - at(from), at(to) - at(to - ROUND));
            for (int i = 0; i < count; i++) {
                for (long edge : new long[] {fromNs[i], toNs[i], fromNs[i] - ROUND, toNs[i] - ROUND}) {
                    if (edge >= from && edge + ROUND <= to) {
                        least = Math.min(least, at(edge + ROUND) - at(edge));
                    }
                }
            }
            return least / 10;
        }
    }
}
