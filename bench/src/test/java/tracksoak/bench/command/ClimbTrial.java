package tracksoak.bench.command;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.simulated.Ageing;
import tracksoak.bench.simulated.AllocationCost;
import tracksoak.bench.simulated.Behaviour;
import tracksoak.bench.simulated.CleanUpStalls;
import tracksoak.bench.simulated.ConstantRate;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.FastCache;
import tracksoak.bench.simulated.Heat;
import tracksoak.bench.simulated.Jitter;
import tracksoak.bench.simulated.PeriodicStalls;
import tracksoak.bench.simulated.RandomStalls;
import tracksoak.bench.simulated.SerialFlush;
import tracksoak.bench.simulated.SharedBus;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.Margins;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.TrackGroup;
import tracksoak.report.record.facts.PlanName;

/**
 * A session and a drive to climb on, made up from one seed. Most drives carry some of the tracks, few all or none; many
 * stall more rarely than a short take would see.
 *
 * @param most tracks tried at most
 */
record ClimbTrial(long seed, Session session, DriveModel drive, int most, double shortTakeS, Plan check) {

    private static final long SECOND = 1_000_000_000L;

    static ClimbTrial of(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        SampleFormat format = List.of(SampleFormat.values()).get(random.nextInt(4));
        int hz = random.nextBoolean() ? 48_000 : 44_100;
        int most = 4 + random.nextInt(9);
        int chunk = (16 << random.nextInt(3)) << 10;
        double chunkS = chunk / (double) (hz * format.bytesPerSample());
        Session session = Session.builder()
                .name("trial")
                .title("A trial")
                .kind(SessionKind.RECORDING)
                .groups(List.of(new TrackGroup(1 + random.nextInt(most), hz, format)))
                .lengthS(15 + random.nextInt(20))
                .layout(FileLayout.FILE_PER_TRACK)
                .chunkBytes(chunk)
                .arrival(random.nextBoolean() ? Arrival.BURST : Arrival.STAGGERED)
                .writers(1)
                .flushS(random.nextInt(3) == 0 ? 0 : 1.5 + random.nextInt(5))
                .bufferS(Math.max(2.02 * chunkS, 0.5 + random.nextInt(2000) / 1000.0))
                .bufferAssumed(false)
                .fileLimitBytes(1L << 40)
                .fileSystems(List.of("exfat"))
                .stallLimitMs(250)
                .margins(new Margins(
                        1 + random.nextInt(150) / 100.0,
                        1 + random.nextInt(150) / 100.0,
                        1,
                        2,
                        500 + random.nextInt(1500),
                        30_000))
                .build();
        return new ClimbTrial(
                seed,
                session,
                drive(
                        random,
                        (long) hz * format.bytesPerSample(),
                        most,
                        session.margins().rate(),
                        seed),
                most,
                2 + random.nextInt(4),
                check(2 + random.nextInt(3), (double) session.lengthS()));
    }

    /** A short sound-check whose take is as long as the session: that settles whatever the fill threatens. */
    private static Plan check(double beforeS, double takeS) {
        return Plan.named(PlanName.SOUND_CHECK)
                .takeBefore(beforeS)
                .fillCap(15)
                .takeAfter(takeS)
                .round(1)
                .shortened()
                .plan();
    }

    private static DriveModel drive(SplittableRandom random, long track, int most, double margin, long seed) {
        long rate = (long) (track * margin * (0.3 + most * 1.2 * random.nextDouble()));
        List<Behaviour> behaviours = new ArrayList<>();
        behaviours.add(
                random.nextInt(4) == 0
                        ? new FastCache(3 * rate, rate, 4 * rate, 8 * rate, random.nextInt(2) * rate / 4, false)
                        : new ConstantRate(rate, 3 * rate, random.nextInt(150_000)));
        if (random.nextBoolean()) {
            behaviours.add(new Jitter(1 + random.nextInt(300)));
        }
        if (random.nextInt(3) == 0) {
            behaviours.add(new AllocationCost(random.nextInt(200_000), 1_000_000, 1000, 10));
        }
        switch (random.nextInt(9)) {
            case 0 -> behaviours.add(new PeriodicStalls(2 * SECOND, (5 + random.nextInt(15)) * SECOND, stall(random)));
            case 1 -> behaviours.add(new RandomStalls(8 * SECOND, 20_000_000, 3 * SECOND, 1.4));
            case 2 -> behaviours.add(new CleanUpStalls(6 * rate, stall(random)));
            case 3 -> behaviours.add(new Heat(10 * rate, 5 * rate, 1 + rate / 2, 200 + random.nextInt(800)));
            case 4 -> behaviours.add(new SharedBus(3 * SECOND, 11 * SECOND, 4 * SECOND, 250 + random.nextInt(700)));
            case 5 -> behaviours.add(new SerialFlush(20_000_000, rate, 4 * rate));
            case 6 -> behaviours.add(new Ageing(60 * rate, 0));
            default -> {}
        }
        return DriveModel.of("trial", "made up", seed, 1L << 37, behaviours.toArray(Behaviour[]::new));
    }

    private static long stall(SplittableRandom random) {
        return 50_000_000L + random.nextLong(2_000_000_000L);
    }
}
