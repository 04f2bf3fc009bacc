package tracksoak.bench.worth;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import tracksoak.bench.simulated.Ageing;
import tracksoak.bench.simulated.AllocationCost;
import tracksoak.bench.simulated.Behaviour;
import tracksoak.bench.simulated.CleanUpStalls;
import tracksoak.bench.simulated.ConstantRate;
import tracksoak.bench.simulated.DiskZones;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.FastCache;
import tracksoak.bench.simulated.FragmentedUnits;
import tracksoak.bench.simulated.Heat;
import tracksoak.bench.simulated.Jitter;
import tracksoak.bench.simulated.LongWrites;
import tracksoak.bench.simulated.Models;
import tracksoak.bench.simulated.PeriodicStalls;
import tracksoak.bench.simulated.RandomStalls;
import tracksoak.bench.simulated.SecondCliff;
import tracksoak.bench.simulated.SerialFlush;
import tracksoak.bench.simulated.SharedBus;
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
 *   <li>session: 8, 12, 16, 24, 32, 48 or 64 tracks, 48 kHz, 24-bit; 30 min to 2 h (log, whole minutes); chunks of 256 KiB and a
 *       buffer of 4 to 8 s, or for one in four 128 KiB and 2 to 4 s; the margins of the shipped sessions; one in four staggered; one in four with files of
 *       1 GiB at most
 *   <li>drive: room for 1.3 to 3 times the session's bytes (log) and 1 GB; one in three with as much again in use, or less;
 *       exFAT; reads 50 to 400 MB/s (log)
 *   <li>its rate: 1 to 40 times the session's need (log), or for one drive in four 0.7 to 3 times
 *   <li>what sets it: for one drive in ten each a spinning disk, and a card that moves used units; else the same all along
 *   <li>trouble: none in 3 of 14 drives, else one of the eleven below; of those one in three has a second, and one in nine a third
 *   <li>besides, one drive in eight writes slowly now and then: 3 to 39 writes of 60 ms to 1 s (log) after every 1 to 60 GB (log), or as often 1 to
 *       12 s (log) at 0.3 to 10 % of its speed (log) every 2 to 60 min (log)
 * </ul>
 *
 * <p>Behaviours act in the order that docs/simulated.md asks for: what sets the time of a call, what stretches it, what adds to it.
 */
final class Population {

    private static final int[] TRACKS = {8, 12, 16, 24, 32, 48, 64};
    private static final double MB = 1e6;
    private static final double GB = 1e9;
    private static final long MS = 1_000_000;
    private static final double SECOND = 1e9;
    private static final double MINUTE = 60e9;

    private final SplittableRandom random;
    private final long seed;
    private final List<Behaviour> setting = new ArrayList<>();
    private final List<Behaviour> stretching = new ArrayList<>();
    private final List<Behaviour> adding = new ArrayList<>();
    private final List<String> troubles = new ArrayList<>();
    private boolean disk;
    private long directoryNs;

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
        double rate = need * (random.nextInt(4) == 0 ? log(0.7, 3) : log(1, 40));
        double read = log(50 * MB, 400 * MB);
        setting.add(kind(rate, read));
        directoryNs = (long) log(0.5e6, 20e6);
        int kind = random.nextInt(14);
        trouble(kind, need, rate, read);
        for (int more = 0; more < 2 && kind < 11 && random.nextInt(3) == 0; more++) {
            trouble(2 + random.nextInt(9), need, rate, read);
        }
        stretching.add(new Jitter(random.nextInt(10, 200)));
        adding.add(0, new AllocationCost((long) log(5e3, 200e3), directoryNs, (long) log(200, 10e3), 0));
        double room = session.bytesPerSecond() * (double) session.lengthS() * log(1.3, 3) + GB;
        long used = random.nextInt(3) == 0 ? (long) uniform(0, room) : 0;
        if (random.nextInt(8) == 0) {
            falters();
        }
        String trouble = troubles.isEmpty() ? "none" : String.join(" + ", troubles);
        Behaviour[] behaviours =
                Stream.of(setting, stretching, adding).flatMap(List::stream).toArray(Behaviour[]::new);
        DriveModel drive = Models.used(DriveModel.of("candidate", trouble, seed, (long) room + used, behaviours), used);
        return new Candidate(seed, trouble, session, disk ? Models.spinning(drive) : drive);
    }

    private Behaviour kind(double rate, double read) {
        int kind = random.nextInt(10);
        disk = kind == 0;
        if (disk) {
            double inner = rate * uniform(0.4, 0.7);
            return new DiskZones((long) rate, (long) inner, random.nextInt(8, 32), MS, (long) log(4 * MS, 15 * MS));
        }
        if (kind == 1) {
            int units = 8 << random.nextInt(3);
            return new FragmentedUnits(
                    (long) rate, (long) (rate * uniform(0.5, 2)), (long) read, units, random.nextInt(units), 512 << 10);
        }
        return new ConstantRate((long) rate, (long) read, (long) log(20e3, 400e3));
    }

    private void trouble(int kind, double need, double rate, double read) {
        switch (kind) {
            case 0 -> cached("cache", cache(need, rate, read));
            case 1 -> {
                FastCache cache = cache(need, rate, read);
                cached("second cliff", cache);
                double left = Math.min(1, need * log(0.7, 4) / cache.slowBytesPerSecond());
                long after = cache.cacheBytes() + (long) log(GB, 30 * GB);
                setting.add(new SecondCliff(after, permille(left), cache.drainBytesPerSecond() / 2));
            }
            case 2 ->
                adds("tidying by bytes", new CleanUpStalls((long) log(0.3 * GB, 60 * GB), (long)
                        log(0.1 * SECOND, 15 * SECOND)));
            case 3 -> {
                double least = log(0.05 * SECOND, 0.4 * SECOND);
                double most = log(SECOND, 15 * SECOND);
                double gap = log(3 * SECOND, 30 * MINUTE);
                adds("random", new RandomStalls((long) gap, (long) least, (long) most, uniform(0.8, 4)));
            }
            case 4 -> {
                double every = log(MINUTE, 90 * MINUTE);
                double length = Math.min(every / 2, log(0.1 * SECOND, 15 * SECOND));
                adds("periodic", new PeriodicStalls((long) uniform(0, every), (long) every, (long) length));
            }
            case 5 -> {
                double hot = log(GB, 40 * GB);
                double throttled = Math.min(1, need * log(0.3, 3) / rate);
                double cooling = need * log(0.4, 3);
                stretches(
                        "heat",
                        new Heat((long) hot, (long) (hot * uniform(0.2, 0.8)), (long) cooling, permille(throttled)));
            }
            case 6 -> {
                double every = log(2 * GB, 30 * GB);
                double left = Math.min(1, need * log(0.4, 4) / rate);
                stretches(
                        "slow zones", new SlowZones((long) every, (long) (every * uniform(0.05, 0.3)), permille(left)));
            }
            case 7 -> {
                double after = disk ? log(MINUTE, 20 * MINUTE) : log(0.5 * SECOND, 90 * SECOND);
                adds("sleep", new SpinUp((long) after, (long) log(0.5 * SECOND, 10 * SECOND), random.nextBoolean()));
            }
            case 8 -> stretches("ageing", new Ageing((long) log(20 * GB, 2000 * GB), 0));
            case 9 ->
                adds("flush", new SerialFlush((long) log(MS, 300 * MS), (long) (need * log(2, 40)), (long)
                        log(MB, 64 * MB)));
            case 10 -> {
                directoryNs = (long) log(20 * MS, 300 * MS);
                troubles.add("slow files");
            }
            default -> {}
        }
    }

    /** Many writes in a row that are long, none of them for itself. */
    private void falters() {
        int writes = random.nextInt(3, 40);
        double length = log(0.06 * SECOND, SECOND);
        double everyBytes = log(GB, 60 * GB);
        if (random.nextBoolean()) {
            adding.add(new LongWrites((long) everyBytes, writes, (long) length));
            troubles.add("long writes in a row by bytes");
        } else {
            double every = log(2 * MINUTE, 60 * MINUTE);
            stretches(
                    "long writes in a row by the clock",
                    new SharedBus(
                            (long) uniform(0, every),
                            (long) every,
                            (long) log(SECOND, 12 * SECOND),
                            permille(log(0.003, 0.1))));
        }
    }

    private void cached(String trouble, FastCache cache) {
        disk = false;
        setting.set(0, cache);
        troubles.add(trouble);
    }

    private void stretches(String trouble, Behaviour behaviour) {
        stretching.add(behaviour);
        troubles.add(trouble);
    }

    private void adds(String trouble, Behaviour behaviour) {
        adding.add(behaviour);
        troubles.add(trouble);
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
        boolean small = random.nextInt(4) == 0;
        int chunkBytes = small ? 128 << 10 : 256 << 10;
        double bufferS = small ? uniform(2, 4) : uniform(4, 8);
        return Session.builder()
                .name("worth")
                .title("What a PASS is worth")
                .kind(SessionKind.RECORDING)
                .groups(List.of(new TrackGroup(tracks, 48_000, SampleFormat.PCM_24)))
                .lengthS(lengthS)
                .layout(FileLayout.FILE_PER_TRACK)
                .chunkBytes(chunkBytes)
                .arrival(random.nextInt(4) == 0 ? Arrival.STAGGERED : Arrival.BURST)
                .writers(1)
                .flushS(10)
                .bufferS(bufferS)
                .bufferAssumed(true)
                .fileLimitBytes(random.nextInt(4) == 0 ? 1L << 30 : 4_294_967_295L)
                .fileSystems(List.of("exfat"))
                .stallLimitMs(250)
                .margins(new Margins(1.25, 1.5, 2, 1.25, 0, 15_000))
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
