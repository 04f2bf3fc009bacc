package tracksoak.bench.simulated.catalog;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import tracksoak.bench.simulated.Ageing;
import tracksoak.bench.simulated.AllocationCost;
import tracksoak.bench.simulated.Behaviour;
import tracksoak.bench.simulated.BitFlips;
import tracksoak.bench.simulated.CleanUpStalls;
import tracksoak.bench.simulated.ConstantRate;
import tracksoak.bench.simulated.DiskZones;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.FakeCapacity;
import tracksoak.bench.simulated.FakeCapacity.Past;
import tracksoak.bench.simulated.FastCache;
import tracksoak.bench.simulated.FragmentedUnits;
import tracksoak.bench.simulated.HangsOnce;
import tracksoak.bench.simulated.Heat;
import tracksoak.bench.simulated.Jitter;
import tracksoak.bench.simulated.Models;
import tracksoak.bench.simulated.NeverReturns;
import tracksoak.bench.simulated.PeriodicStalls;
import tracksoak.bench.simulated.RandomStalls;
import tracksoak.bench.simulated.Removal;
import tracksoak.bench.simulated.SerialFlush;
import tracksoak.bench.simulated.SharedBus;
import tracksoak.bench.simulated.SpinUp;
import tracksoak.bench.simulated.StaleReads;
import tracksoak.bench.simulated.TornWrites;
import tracksoak.bench.simulated.WeakReads;
import tracksoak.bench.simulated.WearOut;

/** The named drives have exactly these figures: records, goldens and what people remember of them rest on it. */
class NamedDrivesTest {

    private static final long SECOND_NS = 1_000_000_000;
    private static final long MB = 1_000_000;
    private static final long GB = 1_000_000_000;
    private static final long US = 1_000;
    private static final long MS = 1_000_000;
    private static final long MINUTE = 60 * SECOND_NS;

    private static final Behaviour STICK = new ConstantRate(40 * MB, 90 * MB, 150 * US);
    private static final Behaviour SSD = new ConstantRate(350 * MB, 400 * MB, 80 * US);
    private static final Behaviour SMALL_VARIATION = new Jitter(120);
    private static final Behaviour TABLE = new AllocationCost(60 * US, 4 * MS, 2 * US, 0);

    private static final List<DriveModel> ALL = List.of(
            drive("steady-ssd", "a solid-state drive that keeps its rate for ever", 101, 128 * GB, SSD),
            drive("steady-stick", "a plain stick, not fast but even", 102, 64 * GB, STICK),
            drive(
                    "slow-stick",
                    "an even stick that is too slow for many tracks",
                    103,
                    16 * GB,
                    new ConstantRate(6 * MB, 20 * MB, 400 * US)),
            drive(
                    "cliff-ssd",
                    "a solid-state drive that falls off a cliff when its fast cache is full",
                    104,
                    64 * GB,
                    new FastCache(400 * MB, 14 * MB, 400 * MB, 12 * GB, 20 * MB, false)),
            Models.used(
                    drive(
                            "nearly-full-stick",
                            "a stick nine tenths full, with a fast cache that has shrunk to little",
                            105,
                            64 * GB,
                            new FastCache(60 * MB, 4 * MB, 90 * MB, 16 * GB, MB, true)),
                    576 * GB / 10),
            drive(
                    "tidying-stick",
                    "a stick that stops for three seconds every two minutes to tidy up",
                    106,
                    32 * GB,
                    STICK,
                    new PeriodicStalls(70 * SECOND_NS, 2 * MINUTE, 3 * SECOND_NS)),
            drive(
                    "hiccup-card",
                    "a card with many short stops, seldom a long one",
                    107,
                    64 * GB,
                    STICK,
                    new RandomStalls(20 * SECOND_NS, 80 * MS, 1500 * MS, 1.6)),
            drive(
                    "collecting-ssd",
                    "a solid-state drive that stops after every gigabyte to free blocks",
                    108,
                    128 * GB,
                    SSD,
                    new CleanUpStalls(GB, 700 * MS)),
            drive(
                    "hot-ssd",
                    "a small solid-state drive that throttles when it gets hot",
                    109,
                    128 * GB,
                    SSD,
                    new Heat(30 * GB, 12 * GB, 25 * MB, 6)),
            Models.formatted(
                    DriveModel.of(
                            "crowded-card",
                            "a card with used-up allocation units and a directory that slows it down",
                            110,
                            32 * GB,
                            new FragmentedUnits(24 * MB, 12 * MB, 60 * MB, 16, 12, 512 << 10),
                            SMALL_VARIATION,
                            new AllocationCost(500 * US, 30 * MS, 200 * US, 200)),
                    "fat32",
                    32 << 10),
            Models.spinning(Models.linked(
                    Models.used(
                            drive(
                                    "old-disk",
                                    "a spinning disk, half full and slower towards the inside, that seeks between files",
                                    111,
                                    320 * GB,
                                    new DiskZones(62 * MB, 28 * MB, 16, 1500 * US, 14 * MS)),
                            160 * GB),
                    480)),
            Models.spinning(drive(
                    "sleepy-disk",
                    "a spinning disk that sleeps when left alone and wakes slowly",
                    112,
                    500 * GB,
                    new DiskZones(110 * MB, 52 * MB, 16, 1000 * US, 11 * MS),
                    new SpinUp(350 * MS, 9 * SECOND_NS, true))),
            Models.linked(
                    drive(
                            "shared-port-stick",
                            "a good stick on a port that another device takes half of now and then",
                            113,
                            64 * GB,
                            new ConstantRate(22 * MB, 30 * MB, 150 * US),
                            new SharedBus(40 * SECOND_NS, 90 * SECOND_NS, 30 * SECOND_NS, 500)),
                    480),
            drive(
                    "flush-bound-stick",
                    "a cheap stick that stops for everybody on each flush",
                    114,
                    32 * GB,
                    new ConstantRate(60 * MB, 80 * MB, 120 * US),
                    new SerialFlush(25 * MS, 9 * MB, 16 * MB)),
            drive(
                    "aged-ssd",
                    "a worn solid-state drive that gets slower the more is written",
                    115,
                    128 * GB,
                    new ConstantRate(60 * MB, 200 * MB, 120 * US),
                    new Ageing(20 * GB, 60 * GB)),
            drive(
                    "faded-stick",
                    "a stick that writes well and reads some spots only after many tries",
                    126,
                    64 * GB,
                    STICK,
                    new WeakReads(40, 256 << 10, 11 * MS, 400)),
            drive(
                    "fake-wrap",
                    "a fake stick: past its real size it writes over its beginning",
                    116,
                    64 * GB,
                    STICK,
                    new FakeCapacity(8 * GB, Past.WRAPS)),
            drive(
                    "fake-drop",
                    "a fake stick: past its real size it drops what it is given",
                    117,
                    64 * GB,
                    STICK,
                    new FakeCapacity(8 * GB, Past.DROPS)),
            drive(
                    "fake-zero",
                    "a fake stick: past its real size it shows zeros",
                    118,
                    64 * GB,
                    STICK,
                    new FakeCapacity(8 * GB, Past.ZEROS)),
            drive(
                    "weak-cell-stick",
                    "a stick with a flipped bit in one of ten thousand blocks",
                    119,
                    64 * GB,
                    STICK,
                    new BitFlips(10_000)),
            drive(
                    "torn-write-card",
                    "a card that keeps only half of one write in five thousand",
                    120,
                    64 * GB,
                    STICK,
                    new TornWrites(5_000)),
            drive(
                    "forgetful-ssd",
                    "a solid-state drive that shows an old version of one block in twenty thousand",
                    121,
                    128 * GB,
                    SSD,
                    new StaleReads(20_000)),
            drive(
                    "loose-plug-stick",
                    "a stick that falls off the port after a minute and a half",
                    122,
                    64 * GB,
                    STICK,
                    new Removal(Long.MAX_VALUE, 90 * SECOND_NS)),
            drive(
                    "worn-out-card",
                    "a card that turns read-only after 400 MB",
                    123,
                    32 * GB,
                    STICK,
                    new WearOut(400 * MB)),
            drive(
                    "hanging-ssd",
                    "a solid-state drive that never comes back from a write after 300 MB",
                    124,
                    128 * GB,
                    SSD,
                    new NeverReturns(300 * MB)),
            drive(
                    "dozing-ssd",
                    "a solid-state drive that hangs for 20 s once and comes back",
                    125,
                    128 * GB,
                    SSD,
                    new HangsOnce(200 * MB, 20 * SECOND_NS)));

    @Test
    void everyFileSaysExactlyWhatTheDriveAlwaysWas() {
        assertThat(SimulatedDrives.all()).containsExactlyElementsOf(ALL);
    }

    @Test
    void everyFileIsNamedAndEveryNameHasAFile() throws IOException {
        try (Stream<Path> files = Files.list(Path.of("src/main/resources/tracksoak/simulated"))) {
            assertThat(files.map(file -> String.valueOf(file.getFileName())))
                    .containsExactlyInAnyOrderElementsOf(SimulatedDrives.names().stream()
                            .map(name -> name + ".toml")
                            .toList());
        }
    }

    private static DriveModel drive(
            String name, String about, long seed, long capacity, Behaviour rate, Behaviour... more) {
        List<Behaviour> behaviours = new ArrayList<>(List.of(rate, SMALL_VARIATION, TABLE));
        behaviours.addAll(List.of(more));
        return DriveModel.of(name, about, seed, capacity, behaviours.toArray(Behaviour[]::new));
    }
}
