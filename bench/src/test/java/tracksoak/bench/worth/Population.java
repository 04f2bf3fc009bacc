package tracksoak.bench.worth;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
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
import tracksoak.bench.simulated.SecondCliff;
import tracksoak.bench.simulated.SlowZones;
import tracksoak.bench.simulated.SpinUp;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.Margins;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.TrackGroup;

/**
 * The drives and sessions of the populations, all distributions in one place. They are made up, wide on purpose and fitted
 * to no drive and to no rule of the bench. "Log" means that the logarithm is uniform: every octave is as likely.
 *
 * <ul>
 *   <li>session: 8, 12, 16, 24, 32, 48 or 64 tracks, 48 kHz, 24-bit; 30 min to 2 h (log, whole minutes); chunks of 256 KiB;
 *       buffer 4 to 8 s; longest stall asked 62.5 % of the buffer as in the shipped sessions, the other margins theirs
 *   <li>drive: 1.3 to 3 times the session's bytes (log) and 1 GB; exFAT; reads 50 to 400 MB/s (log)
 *   <li>its rate: 1 to 40 times the session's need (log), or for one drive in ten 0.7 to 1.5 times
 *   <li>trouble: none in 3 of 11 drives, else one of the eight below; one in four has a second
 * </ul>
 */
final class Population {

    private static final int[] TRACKS = {8, 12, 16, 24, 32, 48, 64};
    private static final double MB = 1e6;
    private static final double GB = 1e9;
    private static final double SECOND = 1e9;
    private static final double MINUTE = 60e9;

    private final SplittableRandom random;
    private final long seed;

    private Population(long seed) {
        this.seed = seed;
        random = new SplittableRandom(seed);
    }

    /** The candidate of a seed. */
    static Candidate of(long seed) {
        return new Population(seed).candidate();
    }

    private Candidate candidate() {
        Session session = session();
        double need = (double) session.bytesPerSecond();
        double rate = need * (random.nextInt(10) == 0 ? log(0.7, 1.5) : log(1, 40));
        double read = log(50 * MB, 400 * MB);
        List<Behaviour> behaviours = new ArrayList<>();
        List<String> troubles = new ArrayList<>();
        behaviours.add(new ConstantRate((long) rate, (long) read, (long) log(20e3, 400e3)));
        int first = random.nextInt(11);
        trouble(first, need, rate, read, behaviours, troubles);
        if (random.nextInt(4) == 0) {
            int second = 2 + random.nextInt(6);
            if (second != first) {
                trouble(second, need, rate, read, behaviours, troubles);
            }
        }
        behaviours.add(new Jitter(random.nextInt(10, 200)));
        behaviours.add(new AllocationCost((long) log(5e3, 200e3), (long) log(0.5e6, 20e6), (long) log(200, 10e3), 0));
        long size = (long) (session.bytesPerSecond() * (double) session.lengthS() * log(1.3, 3) + GB);
        String trouble = troubles.isEmpty() ? "none" : String.join(" + ", troubles);
        return new Candidate(
                seed,
                trouble,
                session,
                DriveModel.of("candidate", trouble, seed, size, behaviours.toArray(Behaviour[]::new)));
    }

    private void trouble(
            int kind, double need, double rate, double read, List<Behaviour> behaviours, List<String> troubles) {
        switch (kind) {
            case 0 -> {
                behaviours.set(0, cache(need, rate, read));
                troubles.add("cache");
            }
            case 1 -> {
                FastCache cache = cache(need, rate, read);
                behaviours.set(0, cache);
                double left = Math.min(1, need * log(0.7, 4) / cache.slowBytesPerSecond());
                long after = cache.cacheBytes() + (long) log(GB, 30 * GB);
                behaviours.add(new SecondCliff(after, permille(left), cache.drainBytesPerSecond() / 2));
                troubles.add("second cliff");
            }
            case 2 -> {
                behaviours.add(new CleanUpStalls((long) log(0.3 * GB, 30 * GB), (long) log(0.1 * SECOND, 15 * SECOND)));
                troubles.add("tidying by bytes");
            }
            case 3 -> {
                double least = log(0.05 * SECOND, 0.4 * SECOND);
                double most = log(2 * SECOND, 15 * SECOND);
                double gap = log(3 * SECOND, 30 * MINUTE);
                behaviours.add(new RandomStalls((long) gap, (long) least, (long) most, uniform(1.2, 4)));
                troubles.add("random");
            }
            case 4 -> {
                double every = log(MINUTE, 90 * MINUTE);
                double length = Math.min(every / 2, log(0.1 * SECOND, 15 * SECOND));
                behaviours.add(new PeriodicStalls((long) uniform(0, every), (long) every, (long) length));
                troubles.add("periodic");
            }
            case 5 -> {
                double hot = log(GB, 40 * GB);
                double throttled = Math.min(1, need * log(0.3, 3) / rate);
                behaviours.add(new Heat(
                        (long) hot,
                        (long) (hot * uniform(0.2, 0.8)),
                        (long) (need * log(0.4, 3)),
                        permille(throttled)));
                troubles.add("heat");
            }
            case 6 -> {
                double every = log(2 * GB, 30 * GB);
                double left = Math.min(1, need * log(0.4, 4) / rate);
                behaviours.add(new SlowZones((long) every, (long) (every * uniform(0.05, 0.3)), permille(left)));
                troubles.add("slow zones");
            }
            case 7 -> {
                double after = log(0.5 * SECOND, 90 * SECOND);
                behaviours.add(new SpinUp((long) after, (long) log(0.5 * SECOND, 10 * SECOND), random.nextBoolean()));
                troubles.add("sleep");
            }
            default -> {}
        }
    }

    private FastCache cache(double need, double rate, double read) {
        double slow = Math.min(rate, need * log(0.7, 8));
        return new FastCache(
                (long) rate,
                (long) slow,
                (long) read,
                (long) log(0.5 * GB, 20 * GB),
                (long) (random.nextInt(3) == 0 ? 0 : log(MB, 40 * MB)),
                random.nextBoolean());
    }

    private Session session() {
        int tracks = TRACKS[random.nextInt(TRACKS.length)];
        long lengthS = 60 * Math.round(log(30, 120));
        double bufferS = uniform(4, 8);
        return Session.builder()
                .name("worth")
                .title("What a PASS is worth")
                .kind(SessionKind.RECORDING)
                .groups(List.of(new TrackGroup(tracks, 48_000, SampleFormat.PCM_24)))
                .lengthS(lengthS)
                .layout(FileLayout.FILE_PER_TRACK)
                .chunkBytes(256 << 10)
                .arrival(Arrival.BURST)
                .writers(1)
                .flushS(10)
                .bufferS(bufferS)
                .bufferAssumed(true)
                .fileLimitBytes(4_294_967_295L)
                .fileSystems(List.of("exfat"))
                .stallLimitMs(250)
                .margins(new Margins(1.25, 1.5, 2, 1.25, (long) (625 * bufferS), 15_000))
                .build();
    }

    private double log(double least, double most) {
        return least * StrictMath.pow(most / least, random.nextDouble());
    }

    private double uniform(double least, double most) {
        return least + (most - least) * random.nextDouble();
    }

    private static int permille(double share) {
        return (int) Math.max(1, Math.min(1000, 1000 * share));
    }
}
