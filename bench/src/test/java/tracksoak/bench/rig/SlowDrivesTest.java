package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static tracksoak.bench.rig.Verdicts.failed;
import static tracksoak.bench.rig.Verdicts.missed;
import static tracksoak.bench.rig.Verdicts.noVerdict;
import static tracksoak.bench.rig.Verdicts.passed;
import static tracksoak.bench.rig.Verdicts.phase;
import static tracksoak.bench.rig.Verdicts.told;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.stream.Stamp;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;

/** Drives that do what they are told, fast enough or not. Each is held against what the drive itself wrote down. */
@NeedsRig
@Execution(ExecutionMode.CONCURRENT)
@Order(2)
class SlowDrivesTest {

    private static final int TRACKS = 16;
    private static final long DEMAND = TRACKS * Shows.TRACK;

    @ParameterizedTest
    @EnumSource(
            value = FileSystem.class,
            names = {"EXT4", "EXFAT"})
    void anHonestDrivePasses(FileSystem fileSystem) {
        try (Rig rig = Rig.of(fileSystem, 512)) {
            rig.drive().set(Faults.none().rate(20_000_000));
            Qualifying run = Qualifying.of(rig);

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.take(6), 60);

            passed(record);
            assertThat(record.state()).isEqualTo(RunState.COMPLETE);
            PhaseFacts take = phase(record, PhaseKind.TAKE);
            assertThat(take.lostMs()).isZero();
            long probes = Objects.requireNonNull(record.method().probes()).placed() * Stamp.BLOCK;
            assertThat(probes + take.bytes() + phase(record, PhaseKind.CLOSE).bytes())
                    .as("bytes, against the drive's own log")
                    .isEqualTo(rig.drive().log().payloadBytes());
            assertThat(run.files())
                    .filteredOn(name -> !name.equals("probes.soak"))
                    .hasSize(TRACKS);
            run.leavesNothing();
        }
    }

    /**
     * FUSE's FAT32 writes each cluster many times over, so the session is small and the drive as fast as memory. All goes
     * well, yet the kernel does not say on which device it lies: nothing shows where the blocks read back came from.
     */
    @Test
    void anHonestDriveOfUnknownDeviceHasNoVerdict() {
        try (Rig rig = Rig.of(FileSystem.FAT32, 512)) {
            Qualifying run = Qualifying.of(rig);

            RunRecord record = run.run(Shows.tracks(2), Shows.take(4), 60);

            noVerdict(record);
            assertThat(missed(record)).isEmpty();
            assertThat(Verdicts.criterion(record, "intact").met()).isNull();
            assertThat(Verdicts.criterion(record, "lost-audio").met()).isTrue();
            assertThat(Verdicts.criterion(record, "buffer-margin").met()).isTrue();
            run.leavesNothing();
        }
    }

    @Test
    void anHonestDriveIsFilledUntilItIsSteady() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 512)) {
            rig.drive().set(Faults.none().rate(15_000_000));

            Qualifying run = Qualifying.of(rig);

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.takeFillTake(2, 30, 3), 120);

            passed(record);
            FillFacts fill =
                    Objects.requireNonNull(phase(record, PhaseKind.FILL).fill());
            assertThat(fill.ended()).as(told(record)).isEqualTo(FillFacts.Ended.STEADY);
            assertThat(fill.cliffAtBytes()).isNull();
            assertThat(fill.floorBytesPerSecond() / 15e6).isBetween(0.7, 1.05);
            run.leavesNothing();
        }
    }

    /** Four writers have four calls in flight that the drive answers one after another: their times add up to far more than all. */
    @Test
    void aDriveUsedToAHalfPassesWithSeveralWriters() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 512)) {
            rig.drive().set(Faults.none().rate(DEMAND * 2));
            Qualifying run = Qualifying.of(rig);

            RunRecord record = run.run(Shows.tracks(TRACKS).but().writers(4).build(), Shows.take(8), 60);

            passed(record);
            PhaseFacts take = phase(record, PhaseKind.TAKE);
            double used = rig.drive().log().during(take).busyNs() / 8e9;
            assertThat(used).as("by the drive's own log").isBetween(0.4, 0.6);
            assertThat(take.busyFraction()).as(told(record)).isBetween(used - 0.03, used + 0.15);
            run.leavesNothing();
        }
    }

    /** Left alone for 3 s before the take, as in a show: "record" meets it asleep. */
    @Test
    void aDriveAsleepAtRecordLosesTheBeginning() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 256)) {
            rig.drive().set(Faults.none().asleepAfter(2_000, 4_000));
            Qualifying run = Qualifying.of(rig);

            RunRecord record = run.run(
                    Shows.tracks(8),
                    Plan.lineCheck().withDurations(null, null, 8.0).withIdle(3.0),
                    60);

            failed(record, "lost-audio", "longest-stall");
            PhaseFacts take = phase(record, PhaseKind.TAKE);
            assertThat(Objects.requireNonNull(take.start()).idleBeforeS()).isBetween(3.0, 5.0);
            // 4 s asleep, and 2 s of buffer
            assertThat(take.lostMs()).as(told(record)).isBetween(1_000.0, 4_000.0);
            assertThat(take.overruns()).as(told(record)).hasSize(1);
            run.leavesNothing();
        }
    }

    /** The kernel's ext4 gives files room that is not written; at the end what is too much is given back. */
    @Test
    void filesAreGivenSpaceInAdvanceAndNoMoreThanTheyHold() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXT4, 512)) {
            rig.drive().set(Faults.none().rate(20_000_000));
            Qualifying run = Qualifying.of(rig);
            Session session = Shows.tracks(8).but().spaceInAdvanceBytes(8 << 20).build();

            RunRecord record = run.run(session, Shows.take(4), 60);

            passed(record);
            PhaseFacts take = phase(record, PhaseKind.TAKE);
            assertThat(Objects.requireNonNull(take.start()).spaceGiven()).isTrue();
            for (String name : run.files()) {
                Path file = run.folder().resolve(name);
                if (Files.size(file) > 0 && !name.startsWith("probes")) {
                    long blocks = Long.parseLong(Host.run("stat", "-c", "%b", file.toString()));
                    assertThat(blocks * 512).as(name).isBetween(Files.size(file), Files.size(file) + 65_536);
                }
            }
            run.leavesNothing();
        }
    }

    @Test
    void aRateFifthUnderTheDemandFails() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 512)) {
            rig.drive().set(Faults.none().rate(DEMAND * 8 / 10));

            Qualifying run = Qualifying.of(rig);

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.take(20), 90);

            failed(record, "lost-audio", "buffer-margin", "rate-margin");
            PhaseFacts take = phase(record, PhaseKind.TAKE);
            // produced − on the drive, by its own log − what the 2 s of buffer hold in whole chunks of 455 ms each
            double onDriveS = rig.drive().log().during(take).payloadBytes() / (double) DEMAND;
            assertThat(take.lostMs())
                    .as(told(record))
                    .isBetween((18 - onDriveS) * 1e3 - 100, (18.9 - onDriveS) * 1e3 + 100);
            assertThat(take.tracksHit()).isEqualTo(TRACKS);
            assertThat(take.busyFraction()).isGreaterThan(0.95);
            run.leavesNothing();
        }
    }

    @Test
    void aCliffBehindAFastCacheFails() {
        long cache = 64L << 20;
        try (Rig rig = Rig.of(FileSystem.EXT4, 512)) {
            Qualifying run = Qualifying.of(rig);
            rig.drive().set(Faults.none().rate(20_000_000).cliff(cache, DEMAND * 8 / 10));

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.takeFillTake(0, 60, 12, 3), 120);

            failed(record, "rate-margin", "lost-audio");
            FillFacts fill =
                    Objects.requireNonNull(phase(record, PhaseKind.FILL).fill());
            assertThat(fill.cliffAtBytes()).as(told(record)).isNotNull();
            assertThat(Objects.requireNonNull(fill.cliffAtBytes()) / (double) cache)
                    .isCloseTo(1, within(0.1));
            List<RequestLog.Entry> behind = behind(
                    cache,
                    rig.drive().log().during(phase(record, PhaseKind.FILL)).payloadWrites());
            assertThat(Objects.requireNonNull(fill.rateAfterBytesPerSecond()) / rate(behind))
                    .isCloseTo(1, within(0.1));
            assertThat(fill.floorBytesPerSecond() / lowestRate(behind)).isCloseTo(1, within(0.1));
            // a rig may be late, but is never faster than it was told
            assertThat(rate(behind) / (DEMAND * 0.8)).isBetween(0.5, 1.05);
            run.leavesNothing();
        }
    }

    private static List<RequestLog.Entry> behind(long bytes, List<RequestLog.Entry> writes) {
        long sum = 0;
        int first = 0;
        while (sum < bytes) {
            sum += writes.get(first++).length();
        }
        return writes.subList(first, writes.size());
    }

    /** In B/s, from the start of the first to the start of the last. */
    private static double rate(List<RequestLog.Entry> writes) {
        int last = writes.size() - 1;
        long bytes = writes.subList(0, last).stream()
                .mapToLong(RequestLog.Entry::length)
                .sum();
        return bytes * 1e9 / (writes.get(last).startNs() - writes.get(0).startNs());
    }

    /** The rate of the 10 s in which the drive took least. */
    private static double lowestRate(List<RequestLog.Entry> writes) {
        double lowest = rate(writes);
        int to = 0;
        for (int from = 0; from < writes.size(); from++) {
            while (to < writes.size()
                    && writes.get(to).startNs() - writes.get(from).startNs() < 10e9) {
                to++;
            }
            if (to < writes.size()) {
                lowest = Math.min(lowest, rate(writes.subList(from, to + 1)));
            }
        }
        return lowest;
    }

    /** Flat out it stops for 2.5 s after every 12 MB; 8 tracks write as much in 10.4 s, and their buffer holds 2 s. */
    @Test
    void aPauseByBytesIsFollowedToTheSessionsPace() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 512)) {
            Qualifying run = Qualifying.of(rig);
            rig.drive().set(Faults.none().rate(30_000_000).stallEveryBytes(2_500, 12_000_000));

            RunRecord record = run.run(Shows.tracks(8), Shows.fillThenTake(60, 3, 60), 180);

            // it ends as soon as the margin is missed, mostly before the buffer is full
            failed(record, "buffer-margin", "longest-stall");
            PhaseFacts fill = phase(record, PhaseKind.FILL);
            long pauses =
                    fill.stalls().stream().filter(stall -> stall.ms() > 2_400).count();
            assertThat((double) pauses).as(told(record)).isCloseTo(fill.bytes() / 12e6, within(1.5));
            PhaseFacts take = phase(record, PhaseKind.TAKE);
            // 3 s if the fill ended just before one
            assertThat(take.seconds()).as("it went on until it met one").isBetween(3.0, 25.0);
            assertThat(take.peakBacklogMs()).as(told(record)).isGreaterThan(1_600);
            run.leavesNothing();
        }
    }

    @Test
    void aSecondCliffBehindTheFirstIsReached() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 512)) {
            Qualifying run = Qualifying.of(rig);
            rig.drive()
                    .set(Faults.none()
                            .rate(30_000_000)
                            .cliff(16_000_000, 6_000_000)
                            .secondCliff(50_000_000, DEMAND * 8 / 10));

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.takeFillTake(0, 60, 3), 180);

            failed(record, "rate-margin");
            PhaseFacts fill = phase(record, PhaseKind.FILL);
            assertThat(fill.bytes()).as(told(record)).isGreaterThan(50_000_000);
            run.leavesNothing();
        }
    }

    /**
     * Hot after 20 MB flat out; at the session's pace of 1.15 MB/s it cools faster than it warms, and 8 s of rest cool it
     * whatever the fill left.
     */
    @Test
    void heatOfTheFillIsNotHeldAgainstADriveButIsNotSettledByAShortTake() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 512)) {
            Qualifying run = Qualifying.of(rig);
            rig.drive()
                    .set(Faults.none()
                            .rate(30_000_000)
                            .heat(20_000_000, 4_000_000, 2_000_000, 8 * Shows.TRACK * 7 / 10));

            RunRecord record =
                    run.run(Shows.tracks(8), Shows.takeFillTake(0, 90, 3).withIdle(10.0), 240);

            noVerdict(record);
            assertThat(missed(record)).isEmpty();
            Criterion rate = Verdicts.criterion(record, "rate-margin");
            assertThat(rate.met()).as(told(record)).isNull();
            assertThat(rate.sentence()).contains("may be too little for the session", "would tell");
            run.leavesNothing();
        }
    }

    @Test
    void aStallLongerThanTheBufferLosesAudio() {
        Session session = Shows.tracks(TRACKS, 16_384);
        try (Rig rig = Rig.of(FileSystem.EXT4, 512)) {
            Qualifying run = Qualifying.of(rig)
                    .when(
                            PhaseKind.TAKE,
                            2,
                            () -> rig.drive().set(Faults.none().rate(20_000_000).stallOnce(3_000, 0)));
            rig.drive().set(Faults.none().rate(20_000_000));

            RunRecord record = run.run(session, Shows.take(8), 90);

            failed(record, "lost-audio", "buffer-margin", "longest-stall");
            PhaseFacts take = phase(record, PhaseKind.TAKE);
            assertThat(take.overruns()).hasSize(1);
            assertThat(take.stallCount()).isEqualTo(1);
            // 3 s − 2 s of buffer, give or take a chunk of 114 ms for the round and the one in flight, and what a busy
            // computer adds
            double lateMs = take.stalls().get(0).hostMs();
            assertThat(take.lostMs()).as(told(record)).isCloseTo(1_000, within(300.0 + lateMs));
            double stalledMs = rig.drive().log().stalls().get(0).serviceNs() / 1e6;
            assertThat(take.stalls().get(0).ms()).isCloseTo(stalledMs, within(stalledMs * 0.1));
            run.leavesNothing();
        }
    }

    @Test
    void aStallTheBufferCarriesPassesWithTheMarginItLeaves() {
        Session session = Shows.tracks(TRACKS, 16_384);
        try (Rig rig = Rig.of(FileSystem.EXT4, 512)) {
            Qualifying run = Qualifying.of(rig)
                    .when(
                            PhaseKind.TAKE,
                            2,
                            () -> rig.drive().set(Faults.none().rate(20_000_000).stallOnce(1_000, 0)));
            rig.drive().set(Faults.none().rate(20_000_000));

            RunRecord record = run.run(session, Shows.take(6), 90);

            passed(record);
            PhaseFacts take = phase(record, PhaseKind.TAKE);
            assertThat(take.lostMs()).isZero();
            assertThat(take.stallCount()).as(told(record)).isEqualTo(1);
            // peak backlog = stall + one chunk period of 114 ms + the round that is then written
            assertThat(take.peakBacklogMs()).isBetween(1_100.0, 1_500.0);
            assertThat(Objects.requireNonNull(
                            Verdicts.criterion(record, "buffer-margin").margin()))
                    .isCloseTo(2_000 / take.peakBacklogMs(), within(0.01));
            run.leavesNothing();
        }
    }
}
