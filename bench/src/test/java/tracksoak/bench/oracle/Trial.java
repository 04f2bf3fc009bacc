package tracksoak.bench.oracle;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import tracksoak.bench.simulated.Ageing;
import tracksoak.bench.simulated.AllocationCost;
import tracksoak.bench.simulated.Behaviour;
import tracksoak.bench.simulated.CleanUpStalls;
import tracksoak.bench.simulated.ConstantRate;
import tracksoak.bench.simulated.DiskZones;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.FastCache;
import tracksoak.bench.simulated.FragmentedUnits;
import tracksoak.bench.simulated.HangsOnce;
import tracksoak.bench.simulated.Heat;
import tracksoak.bench.simulated.Jitter;
import tracksoak.bench.simulated.PeriodicStalls;
import tracksoak.bench.simulated.RandomStalls;
import tracksoak.bench.simulated.SerialFlush;
import tracksoak.bench.simulated.SharedBus;
import tracksoak.bench.simulated.WeakReads;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.TrackGroup;

/**
 * A session and a drive made up from one seed. Drives are built around the session's demand, from half of it to six times
 * as fast, so that many are near the edge.
 */
record Trial(long seed, Session session, DriveModel drive, double seconds) {

    private static final long SECOND = 1_000_000_000L;
    private static final int MOST_CHUNKS = 6000;
    private static final List<SampleFormat> FORMATS =
            List.of(SampleFormat.PCM_16, SampleFormat.PCM_24, SampleFormat.PCM_32, SampleFormat.FLOAT_32);
    private static final int[] SAMPLE_RATES = {44_100, 48_000, 88_200, 96_000};

    static Trial of(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        Session session = session(random);
        double mostS = MOST_CHUNKS * (double) session.chunkBytes() / session.bytesPerSecond();
        double seconds = Math.min(5 + random.nextInt(40), Math.max(5, mostS)) + random.nextInt(1000) / 1000.0;
        return new Trial(seed, session, drive(random, session, seed), seconds);
    }

    /** A trial for a player: the drive's reads are about as fast as the tracks play, and pauses come in reads too. */
    static Trial player(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        Session session = session(random);
        double mostS = MOST_CHUNKS / 4 * (double) session.chunkBytes() / session.bytesPerSecond();
        double seconds = Math.min(5 + random.nextInt(25), Math.max(4, mostS)) + random.nextInt(1000) / 1000.0;
        long demand = session.bytesPerSecond();
        long rate =
                (long) (demand * (random.nextInt(3) == 0 ? 0.5 + random.nextDouble() : 1 + 4 * random.nextDouble()));
        List<Behaviour> behaviours = new ArrayList<>();
        behaviours.add(
                random.nextInt(4) == 0
                        ? new DiskZones(2 * rate, rate, 8, random.nextInt(2_000_000), random.nextInt(9_000_000))
                        : new ConstantRate(1_000_000_000L, rate, random.nextInt(200_000)));
        if (random.nextBoolean()) {
            behaviours.add(new Jitter(1 + random.nextInt(1000)));
        }
        switch (random.nextInt(5)) {
            case 0 -> behaviours.add(new PeriodicStalls(2 * SECOND, (3 + random.nextInt(9)) * SECOND, stall(random)));
            case 1 -> behaviours.add(new RandomStalls(4 * SECOND, 20_000_000, 3 * SECOND, 1.2));
            case 2 -> behaviours.add(new SharedBus(3 * SECOND, 11 * SECOND, 4 * SECOND, 250 + random.nextInt(700)));
            default -> {}
        }
        DriveModel drive = DriveModel.of("trial", "made up", seed, 1L << 40, behaviours.toArray(Behaviour[]::new));
        return new Trial(seed, session, drive, seconds);
    }

    /**
     * A trial for a mixdown: one to three tracks are written while all are read. Writes are mostly fast enough; reads are
     * about as fast as the tracks play, and some drives read some spots only after many tries.
     */
    static Trial mixdown(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        Session session = Sessions.mixdown(
                session(random),
                List.of(new TrackGroup(
                        1 + random.nextInt(3),
                        SAMPLE_RATES[random.nextInt(SAMPLE_RATES.length)],
                        FORMATS.get(random.nextInt(FORMATS.size())))));
        double mostS = MOST_CHUNKS / 4 * (double) session.chunkBytes() / session.bytesPerSecond();
        double seconds = Math.min(5 + random.nextInt(25), Math.max(4, mostS)) + random.nextInt(1000) / 1000.0;
        long demand = session.bytesPerSecond();
        long reads =
                (long) (demand * (random.nextInt(4) == 0 ? 0.5 + random.nextDouble() : 1 + 5 * random.nextDouble()));
        long writes = (long) (demand * (0.2 + 3 * random.nextDouble()));
        List<Behaviour> behaviours = new ArrayList<>();
        behaviours.add(
                random.nextInt(4) == 0
                        ? new DiskZones(2 * reads, reads, 8, random.nextInt(2_000_000), random.nextInt(9_000_000))
                        : new ConstantRate(writes, reads, random.nextInt(200_000)));
        if (random.nextBoolean()) {
            behaviours.add(new Jitter(1 + random.nextInt(1000)));
        }
        if (random.nextInt(4) == 0) {
            behaviours.add(new AllocationCost(random.nextInt(200_000), 1_000_000, 1000, 10));
        }
        switch (random.nextInt(8)) {
            case 0 -> behaviours.add(new PeriodicStalls(2 * SECOND, (3 + random.nextInt(9)) * SECOND, stall(random)));
            case 1 -> behaviours.add(new RandomStalls(4 * SECOND, 20_000_000, 3 * SECOND, 1.2));
            case 2 -> behaviours.add(new SharedBus(3 * SECOND, 11 * SECOND, 4 * SECOND, 250 + random.nextInt(700)));
            case 3 -> behaviours.add(new SerialFlush(20_000_000, writes, 4 * demand));
            case 4, 5 ->
                behaviours.add(new WeakReads(
                        2 + random.nextInt(60), 4096L << random.nextInt(7), 11_000_000, 1 + random.nextInt(300)));
            default -> {}
        }
        DriveModel drive = DriveModel.of("trial", "made up", seed, 1L << 40, behaviours.toArray(Behaviour[]::new));
        return new Trial(seed, session, drive, seconds);
    }

    private static Session session(SplittableRandom random) {
        List<TrackGroup> groups = new ArrayList<>();
        int kinds = random.nextInt(4) == 0 ? 2 : 1;
        for (int i = 0; i < kinds; i++) {
            groups.add(new TrackGroup(
                    1 + random.nextInt(random.nextBoolean() ? 8 : 40),
                    SAMPLE_RATES[random.nextInt(SAMPLE_RATES.length)],
                    FORMATS.get(random.nextInt(FORMATS.size()))));
        }
        int chunk = 4096 << random.nextInt(6);
        double longestChunkS = groups.stream()
                .mapToDouble(group -> chunk / (double) group.bytesPerSecondPerTrack())
                .max()
                .orElseThrow();
        double buffer = Math.max(longestChunkS * 1.01, 0.3 + random.nextInt(2500) / 1000.0);
        return Sessions.of(
                groups,
                FileLayout.FILE_PER_TRACK,
                chunk,
                random.nextBoolean() ? Arrival.BURST : Arrival.STAGGERED,
                random.nextInt(3) == 0 ? 0 : 0.5 + random.nextInt(8000) / 1000.0,
                buffer,
                100 + random.nextInt(400));
    }

    private static DriveModel drive(SplittableRandom random, Session session, long seed) {
        long demand = session.bytesPerSecond();
        long rate =
                (long) (demand * (random.nextInt(3) == 0 ? 0.5 + random.nextDouble() : 1 + 5 * random.nextDouble()));
        List<Behaviour> behaviours = new ArrayList<>();
        behaviours.add(
                switch (random.nextInt(4)) {
                    case 0 -> new FastCache(4 * rate, rate, 4 * rate, 5 * demand, random.nextInt(2) * demand, false);
                    case 1 -> new FragmentedUnits(2 * rate, 2 * rate, 2 * rate, 16, random.nextInt(12), 512 << 10);
                    default -> new ConstantRate(rate, 2 * rate, random.nextInt(200_000));
                });
        if (random.nextBoolean()) {
            behaviours.add(new Jitter(1 + random.nextInt(1000)));
        }
        if (random.nextInt(4) == 0) {
            behaviours.add(new AllocationCost(random.nextInt(200_000), 1_000_000, 1000, 10));
        }
        switch (random.nextInt(9)) {
            case 0 -> behaviours.add(new PeriodicStalls(2 * SECOND, (3 + random.nextInt(9)) * SECOND, stall(random)));
            case 1 -> behaviours.add(new RandomStalls(4 * SECOND, 20_000_000, 3 * SECOND, 1.2));
            case 2 -> behaviours.add(new CleanUpStalls(4 * demand, stall(random)));
            case 3 -> behaviours.add(new Heat(10 * demand, 5 * demand, demand / 2, 100 + random.nextInt(900)));
            case 4 -> behaviours.add(new SharedBus(3 * SECOND, 11 * SECOND, 4 * SECOND, 250 + random.nextInt(700)));
            case 5 -> behaviours.add(new SerialFlush(20_000_000, rate, 4 * demand));
            case 6 -> behaviours.add(new Ageing(20 * demand, 0));
            case 7 -> behaviours.add(new HangsOnce(5 * demand, random.nextInt(8) * SECOND));
            default -> {}
        }
        return DriveModel.of("trial", "made up", seed, 1L << 40, behaviours.toArray(Behaviour[]::new));
    }

    private static long stall(SplittableRandom random) {
        return 50_000_000L + random.nextLong(2_500_000_000L);
    }
}
