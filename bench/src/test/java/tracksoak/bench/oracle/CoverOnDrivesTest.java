package tracksoak.bench.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.stream.LongStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import tracksoak.bench.recorder.loop.TakeFigures;
import tracksoak.bench.simulated.AllocationCost;
import tracksoak.bench.simulated.Behaviour;
import tracksoak.bench.simulated.CleanUpStalls;
import tracksoak.bench.simulated.ConstantRate;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.FastCache;
import tracksoak.bench.simulated.Heat;
import tracksoak.bench.simulated.PeriodicStalls;
import tracksoak.bench.simulated.RandomStalls;
import tracksoak.bench.simulated.SecondCliff;
import tracksoak.bench.simulated.SlowZones;
import tracksoak.bench.simulated.SpinUp;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.Margins;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.SessionOrder;
import tracksoak.profiles.TrackGroup;
import tracksoak.report.record.facts.Stall;

/**
 * Where a PASS for one session covers another, no drive meets every criterion of a take of the first and loses audio in the second, or misses a
 * criterion of it. Pairs of sessions are drawn whose respects differ, and a drive for each whose troubles lie near what the first can bear;
 * both are played whole on a drive as new, with the same chances. The truth is what the recorder loop counts; no verdict takes part.
 *
 * <p>300 pairs in each build, 10,000 at night.
 */
class CoverOnDrivesTest {

    private static final double MB = 1e6;
    private static final double SECOND = 1e9;
    private static final long FIRST_SEED = 12_600_000L;

    /** A pair of sessions and a drive; everything follows from the seed. */
    private static final class Pair {
        private final long seed;
        private final SplittableRandom random;
        private final Session proven;
        private final Session asked;
        private final List<Behaviour> behaviours = new ArrayList<>();

        Pair(long seed) {
            this.seed = seed;
            this.random = new SplittableRandom(seed);
            this.proven = session(null);
            this.asked = session(proven);
        }

        boolean covered() {
            return SessionOrder.covers(proven, asked);
        }

        /** The second is the first with a few respects drawn anew, so that many pairs are covered and many nearly. */
        private Session session(@Nullable Session first) {
            Session.Builder draft = first == null ? base() : first.but();
            if (first == null || random.nextInt(3) > 0) {
                draft.groups(groups(first));
            }
            if (first == null || random.nextInt(2) == 0) {
                draft.bufferS(uniform(1, 6));
            }
            if (first == null || random.nextInt(3) == 0) {
                draft.lengthS(120 + random.nextInt(240));
            }
            if (first == null || random.nextInt(4) == 0) {
                draft.marginBuffer(uniform(1, 2)).marginRate(uniform(1, 2)).longestStallMs(random.nextInt(300, 4_000));
            }
            if (random.nextInt(6) == 0) {
                draft.chunkBytes(64 << 10 << random.nextInt(5));
            }
            if (random.nextInt(8) == 0) {
                draft.arrival(random.nextBoolean() ? Arrival.BURST : Arrival.STAGGERED);
            }
            if (random.nextInt(8) == 0) {
                draft.flushS(random.nextInt(3) * 10.0);
            }
            if (random.nextInt(8) == 0) {
                draft.fileLimitBytes(random.nextBoolean() ? 16 << 20 : 1L << 32);
            }
            Session made = draft.build();
            boolean fits = made.streams().stream()
                    .allMatch(stream -> Math.floor(made.bufferS() * stream.bytesPerSecond()) >= made.chunkBytes());
            return fits ? made : made.but().chunkBytes(64 << 10).build();
        }

        private static Session.Builder base() {
            return Session.builder()
                    .name("pair")
                    .title("")
                    .kind(SessionKind.RECORDING)
                    .layout(FileLayout.FILE_PER_TRACK)
                    .chunkBytes(64 << 10)
                    .arrival(Arrival.BURST)
                    .writers(1)
                    .flushS(10)
                    .bufferAssumed(true)
                    .fileLimitBytes(1L << 32)
                    .fileSystems(List.of("exfat"))
                    .stallLimitMs(250)
                    .margins(new Margins(1.25, 1.5, 2, 1.25, 2_000, 15_000));
        }

        private List<TrackGroup> groups(@Nullable Session first) {
            if (first != null && random.nextInt(3) > 0) {
                return first.groups().stream()
                        .map(group -> new TrackGroup(
                                1 + random.nextInt(group.tracks()), group.sampleRateHz(), group.format()))
                        .toList();
            }
            int hz = random.nextBoolean() ? 48_000 : 96_000;
            TrackGroup group = new TrackGroup(2 + random.nextInt(30), hz, SampleFormat.PCM_24);
            return random.nextInt(3) > 0
                    ? List.of(group)
                    : List.of(group, new TrackGroup(1 + random.nextInt(4), 44_100, SampleFormat.PCM_24));
        }

        DriveModel drive() {
            double need = (double) proven.bytesPerSecond();
            double rate = need * log(1.2, 30);
            behaviours.add(new ConstantRate((long) rate, (long) rate, (long) log(20e3, 2e6)));
            int troubles = random.nextInt(4);
            for (int i = 0; i < troubles; i++) {
                trouble(random.nextInt(8), need, rate);
            }
            behaviours.add(
                    new AllocationCost((long) log(5e3, 200e3), (long) log(0.5e6, 20e6), (long) log(200, 10e3), 0));
            return DriveModel.of("pair", "", seed, 64_000_000_000L, behaviours.toArray(Behaviour[]::new));
        }

        private void trouble(int kind, double need, double rate) {
            double bytes = need * (double) proven.lengthS();
            double longest = 1.3 * SECOND * proven.bufferS() / proven.margins().buffer();
            switch (kind) {
                case 0 ->
                    behaviours.set(
                            0,
                            new FastCache(
                                    (long) rate,
                                    (long) Math.min(rate, need * log(0.8, 6)),
                                    (long) rate,
                                    (long) log(0.05 * bytes, 2 * bytes),
                                    random.nextBoolean() ? 0 : (long) log(MB, 40 * MB),
                                    random.nextBoolean()));
                case 1 ->
                    behaviours.add(new SecondCliff(
                            (long) log(0.1 * bytes, 2 * bytes), permille(need * log(0.8, 6) / rate), 0));
                case 2 ->
                    behaviours.add(
                            new CleanUpStalls((long) log(0.02 * bytes, bytes), (long) log(0.02 * SECOND, longest)));
                case 3 ->
                    behaviours.add(new RandomStalls(
                            (long) log(5 * SECOND, 100 * SECOND), (long) (0.02 * SECOND), (long) longest, 1.5));
                case 4 -> {
                    long every = (long) log(10 * SECOND, 200 * SECOND);
                    behaviours.add(new PeriodicStalls((long) uniform(0, 30 * SECOND), every, (long)
                            log(0.02 * SECOND, Math.min(longest, every / 2.0))));
                }
                case 5 -> {
                    double hot = log(0.05 * bytes, bytes);
                    behaviours.add(new Heat(
                            (long) hot,
                            (long) (hot * uniform(0.2, 0.8)),
                            (long) (need * log(0.4, 3)),
                            permille(need * log(0.5, 4) / rate)));
                }
                case 6 -> {
                    double every = log(0.1 * bytes, bytes);
                    behaviours.add(new SlowZones(
                            (long) every, (long) (every * uniform(0.05, 0.3)), permille(need * log(0.5, 4) / rate)));
                }
                // no drive sleeps sooner than its standby timer can be set to
                default ->
                    behaviours.add(new SpinUp(
                            (long) log(5 * SECOND, 30 * SECOND), (long) log(SECOND, longest + SECOND), false));
            }
        }

        private double log(double least, double most) {
            return least * StrictMath.pow(Math.max(1, most / least), random.nextDouble());
        }

        private double uniform(double least, double most) {
            return least + (most - least) * random.nextDouble();
        }

        private static int permille(double share) {
            return (int) Math.max(1, Math.min(1000, 1000 * share));
        }
    }

    /** What a take came to. */
    private record Take(double lostMs, double peakMs, double busy, double stallMs, double closeMs) {

        static Take of(Session session, DriveModel drive) {
            try {
                LoopRun run = new LoopRun(session, drive, (double) session.lengthS());
                TakeFigures take = run.play();
                double closeMs = run.close();
                return new Take(
                        take.worstLostMs(),
                        take.totals().peakMs(),
                        take.totals().busyNs() / (session.lengthS() * 1e9),
                        take.stalls().stream().mapToDouble(Stall::ms).max().orElse(0),
                        closeMs);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }

        /** What it misses of a session, in words. */
        List<String> misses(Session session) {
            Margins asked = session.margins();
            List<String> misses = new ArrayList<>();
            add(misses, lostMs > 0, "lost-audio");
            add(misses, asked.buffer() * peakMs > session.bufferS() * 1000, "buffer-margin");
            add(misses, asked.rate() * busy > 1, "rate-margin");
            add(misses, stallMs > asked.longestStallMs(), "longest-stall");
            add(misses, closeMs > asked.closeMs(), "close-time");
            return misses;
        }

        private static void add(List<String> misses, boolean missed, String what) {
            if (missed) {
                misses.add(what);
            }
        }
    }

    private record Result(boolean met, String broken) {}

    private static Result play(Pair pair) {
        DriveModel drive = pair.drive();
        Take first = Take.of(pair.proven, drive);
        if (!first.misses(pair.proven).isEmpty()) {
            return new Result(false, "");
        }
        Take second = Take.of(pair.asked, drive);
        List<String> misses = second.misses(pair.asked);
        return new Result(
                true,
                misses.isEmpty()
                        ? ""
                        : "seed " + pair.seed + ": " + misses + " of " + pair.asked + ", " + second + " after "
                                + pair.proven + ", " + first + " on " + pair.behaviours);
    }

    private static List<Result> played(long from, int pairs) {
        return LongStream.iterate(from, seed -> seed + 1)
                .mapToObj(Pair::new)
                .filter(Pair::covered)
                .limit(pairs)
                .map(CoverOnDrivesTest::play)
                .toList();
    }

    private static List<String> broken(List<Result> results) {
        return results.stream()
                .map(Result::broken)
                .filter(text -> !text.isEmpty())
                .toList();
    }

    private static void tryPairs(long from, int pairs) {
        List<Result> results = played(from, pairs);
        long met = results.stream().filter(Result::met).count();
        List<String> broken = broken(results);
        System.out.println("covers: pairs from seed " + from + ": " + pairs + " covered, " + met
                + " met the harder session, " + broken.size() + " of them missed the easier one");
        assertThat(met).as("drives that say anything").isGreaterThan(pairs / 4);
        assertThat(broken).isEmpty();
    }

    @Test
    void noDriveMeetsTheHarderAndMissesTheEasier() {
        tryPairs(FIRST_SEED, 300);
    }

    /**
     * That more of everything is harder, a higher rate included, is what such a drive disproves: it stops for 2 s, to which comes the time a piece
     * lasts, 0.91 s at 96 kHz and 1.82 s at 48 kHz; 3.2 s are allowed.
     */
    @Test
    void theHigherRateIsNotTheHarderOne() {
        Session high = Pair.base()
                .chunkBytes(256 << 10)
                .bufferS(4)
                .lengthS(120)
                .longestStallMs(3_000)
                .groups(List.of(new TrackGroup(8, 96_000, SampleFormat.PCM_24)))
                .build();
        Session usual = high.but()
                .groups(List.of(new TrackGroup(8, 48_000, SampleFormat.PCM_24)))
                .build();
        DriveModel drive = DriveModel.of(
                "stops",
                "",
                1,
                64_000_000_000L,
                new ConstantRate(200_000_000, 200_000_000, 100_000),
                new CleanUpStalls(30_000_000, (long) (2 * SECOND)));
        assertThat(Take.of(high, drive).misses(high)).isEmpty();
        assertThat(Take.of(usual, drive).misses(usual)).containsExactly("buffer-margin");
        assertThat(SessionOrder.asksAsMuch(high, usual)).isTrue();
        assertThat(SessionOrder.covers(high, usual)).isFalse();
    }

    /**
     * Two independent troubles may meet in the second take and not in the first, as they may in the next take of one session. That costs
     * no audio where the first kept its margin, and a margin in less than 1 of 1,000.
     */
    @Test
    @Tag("nightly")
    @Timeout(value = 2, unit = TimeUnit.HOURS)
    void noDriveMeetsTheHarderAndLosesTheEasierAllNight() {
        List<Result> results = played(FIRST_SEED + 10_000_000, 10_000);
        List<String> broken = broken(results);
        System.out.println("covers: " + broken.size() + " of " + results.size() + ": " + broken);
        assertThat(broken).hasSizeLessThan(10).noneMatch(text -> text.contains("lost-audio"));
    }
}
