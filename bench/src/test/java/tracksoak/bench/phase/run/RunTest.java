package tracksoak.bench.phase.run;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.Drive.Presence;
import tracksoak.bench.drive.io.NoPlaceException;
import tracksoak.bench.drive.io.NoPlaceException.Lack;
import tracksoak.bench.drive.system.NeverReturnedException;
import tracksoak.bench.phase.TestTarget;
import tracksoak.bench.phase.VirtualRun;
import tracksoak.bench.recorder.MemoryDrive;
import tracksoak.bench.simulated.SimulatedDrive;
import tracksoak.bench.simulated.catalog.SimulatedDrives;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.json.RecordJson;

/** Whole runs on virtual time. */
class RunTest {

    private static final long S = 1_000_000_000L;
    private static final long EPOCH = 1_795_000_000_000L;

    private final List<RunRecord> snapshots = new ArrayList<>();
    private VirtualClock clock = new VirtualClock(EPOCH);

    @Test
    void aLineCheckOnASteadyStickFindsNothingWrong() {
        RunRecord record = run("steady-stick", "trio-8", Plan.lineCheck().withIdle(0.0));
        assertThat(kinds(record))
                .containsExactly(PhaseKind.TAKE, PhaseKind.CLOSE, PhaseKind.READ_BACK, PhaseKind.PROBES);
        PhaseFacts take = record.phases().get(0);
        assertThat(take.seconds()).isEqualTo(120);
        assertThat(take.lostMs()).isZero();
        // all the audio of 120 s at 8 × 144,000 B/s is on the drive after the close, the last chunk of each track
        // padded
        long written = take.bytes() + record.phases().get(1).bytes();
        assertThat(written).isBetween(8L * 144_000 * 120, 8L * 144_000 * 120 + 8 * 4096);
        assertThat(readBack(record).good()).isEqualTo(written / 4096);
        assertThat(readBack(record).bad()).isZero();
        assertThat(record.state()).isEqualTo(RunState.COMPLETE);
    }

    @Test
    void aSoundCheckOnACliffFindsTheCliffAndTheFloorBehindIt() {
        RunRecord record = run(
                "cliff-ssd", "band-32", Plan.soundCheck(SessionCatalog.shipped().find("band-32")));
        assertThat(kinds(record))
                .containsExactly(
                        PhaseKind.TAKE,
                        PhaseKind.CLOSE,
                        PhaseKind.FILL,
                        PhaseKind.READ_BACK,
                        PhaseKind.FILL,
                        PhaseKind.TAKE,
                        PhaseKind.CLOSE,
                        PhaseKind.READ_BACK,
                        PhaseKind.PROBES);
        // 14 MB/s of the chip, less what each call and each new cluster costs
        FillFacts fill = Objects.requireNonNull(record.phases().get(2).fill());
        assertThat(fill.cliffAtBytes()).isNotNull();
        assertThat(fill.floorBytesPerSecond()).isCloseTo(14e6, within(1.4e6));
        assertThat(fill.steady()).isTrue();
    }

    @Test
    void theSameSeedGivesTheSameRecordByteForByte() {
        String first =
                RecordJson.write(run("hiccup-card", "band-32", Plan.lineCheck().withIdle(0.0)));
        clock = new VirtualClock(EPOCH);
        assertThat(RecordJson.write(
                        run("hiccup-card", "band-32", Plan.lineCheck().withIdle(0.0))))
                .isEqualTo(first);
    }

    @Test
    void aStallLongerThanTheBufferIsCountedToTheChunk() {
        // 144,000 B/s per track, 64 KiB chunks, 2 s buffer; the first write called at or after 30 s takes 5 s
        boolean[] once = {true};
        MemoryDrive drive = new MemoryDrive(clock).writing((now, bytes) -> {
            boolean stall = once[0] && now >= 30 * S;
            once[0] &= !stall;
            return stall ? 5 * S : 1_000_000;
        });
        PhaseFacts take = run(drive, Plan.lineCheck().withIdle(0.0)).phases().get(0);
        assertThat(take.stallCount()).isEqualTo(1);
        assertThat(take.stalls().get(0).ms()).isCloseTo(5000, within(0.001));
        assertThat(take.peakBacklogMs()).isCloseTo(2000, within(0.01));
        assertThat(take.lostMs()).isBetween(3000.0, 3000.0 + 2 * 65_536 / 144.0);
        assertThat(take.overruns()).hasSize(1);
        assertThat(drive.leftOpen()).isEmpty();
    }

    @Test
    void everyFaultHasItsNameAndEndsTheRun() {
        assertThat(faultOf(Presence.PRESENT, 1L << 30)).isEqualTo(Fault.Kind.IO_ERROR);
        assertThat(faultOf(Presence.GONE, 1L << 30)).isEqualTo(Fault.Kind.GONE);
        assertThat(faultOf(Presence.READ_ONLY, 1L << 30)).isEqualTo(Fault.Kind.READ_ONLY);
        assertThat(faultOf(Presence.PRESENT, 1L << 20)).isEqualTo(Fault.Kind.NO_SPACE);
    }

    /** The system's number for the error tells what is lacking, whatever room is left; a drive that left left. */
    @Test
    void whatIsLackingIsNamedAndIsNoFaultOfTheDrive() {
        assertThat(lacking(Presence.PRESENT, 1L << 30, Lack.ROOM)).isEqualTo(Fault.Kind.NO_ENTRIES);
        assertThat(lacking(Presence.UNKNOWN, 1L << 30, Lack.ROOM)).isEqualTo(Fault.Kind.NO_ENTRIES);
        assertThat(lacking(Presence.PRESENT, 1L << 20, Lack.ROOM)).isEqualTo(Fault.Kind.NO_SPACE);
        assertThat(lacking(Presence.PRESENT, 1L << 30, Lack.LENGTH)).isEqualTo(Fault.Kind.TOO_LARGE);
        assertThat(lacking(Presence.PRESENT, 1L << 30, Lack.QUOTA)).isEqualTo(Fault.Kind.QUOTA);
        assertThat(faultOf(Presence.GONE, 1L << 30, new NoPlaceException(Lack.ROOM, "none")))
                .isEqualTo(Fault.Kind.GONE);
        assertThat(faultOf(Presence.READ_ONLY, 1L << 30, new NoPlaceException(Lack.QUOTA, "none")))
                .isEqualTo(Fault.Kind.READ_ONLY);
    }

    private Fault.Kind lacking(Presence presence, long capacity, Lack lack) {
        Fault.Kind kind = faultOf(presence, capacity, new NoPlaceException(lack, "none"));
        RunRecord record = snapshots.get(snapshots.size() - 1);
        Verdict verdict = Objects.requireNonNull(record.verdict());
        assertThat(record.state()).isEqualTo(RunState.BROKEN);
        assertThat(verdict.criteria())
                .filteredOn(Criterion::missed)
                .as("3 h do not fit in this drive anyway")
                .extracting(Criterion::id)
                .containsExactly("room");
        return kind;
    }

    @Test
    void aWriteThatNeverReturnsEndsTheRunWithItsStall() {
        MemoryDrive drive = new MemoryDrive(clock).writing((now, bytes) -> {
            if (now >= 20 * S) {
                clock.advance(30 * S);
                throw new NeverReturnedException("write");
            }
            return 1_000_000;
        });
        RunRecord record = run(drive, Plan.lineCheck().withIdle(0.0));
        assertThat(kinds(record)).containsExactly(PhaseKind.TAKE);
        PhaseFacts take = record.phases().get(0);
        assertThat(fault(take).kind()).isEqualTo(Fault.Kind.HUNG);
        assertThat(take.lostMs()).isGreaterThan(27_000);
        assertThat(take.stalls()).hasSize(1);
        assertThat(take.stalls().get(0).ms()).isCloseTo(30_000, within(500.0));
    }

    @Test
    void badBlocksAreSortedByWhatTheyAre() {
        byte[][] kept = new byte[1][];
        MemoryDrive drive = new MemoryDrive(clock)
                .writing((now, bytes) -> 1_000_000)
                .tampering((name, position, data) -> {
                    long chunk = name.contains("track-0001") ? (position - 4096) / 65_536 : -1;
                    if (chunk == 1) {
                        kept[0] = Arrays.copyOfRange(data, 0, 4096);
                        data[100] ^= 4;
                    } else if (chunk == 2) {
                        Arrays.fill(data, 4096, 8192, (byte) 0);
                    } else if (chunk == 3) {
                        System.arraycopy(kept[0], 0, data, 8192, 4096);
                    }
                });
        ReadBackFacts read = readBack(run(drive, Plan.lineCheck().withIdle(0.0)));
        assertThat(read.flipped()).isEqualTo(1);
        assertThat(read.missing()).isEqualTo(1);
        assertThat(read.misplaced()).isEqualTo(1);
        assertThat(read.stale()).isZero();
        assertThat(read.bad() + read.good()).isEqualTo(read.blocks());
        assertThat(read.examples()).hasSize(3);
    }

    @Test
    void aCancelledRunSaysSo() {
        MemoryDrive drive = new MemoryDrive(clock);
        Run[] run = new Run[1];
        drive.writing((now, bytes) -> {
            if (now > 10 * S) {
                run[0].cancel();
            }
            return 1_000_000;
        });
        run[0] = prepared(
                drive,
                VirtualRun.memory(1L << 30),
                "stick-mix-2",
                Plan.lineCheck().withIdle(0.0));
        RunRecord record = run[0].call();
        assertThat(record.state()).isEqualTo(RunState.INTERRUPTED);
        assertThat(record.phases()).hasSize(1);
        assertThat(fault(record.phases().get(0)).kind()).isEqualTo(Fault.Kind.INTERRUPTED);
        assertThat(drive.leftOpen()).isEmpty();
    }

    private Fault.Kind faultOf(Presence presence, long capacity) {
        return faultOf(presence, capacity, new IOException("words that say nothing"));
    }

    private Fault.Kind faultOf(Presence presence, long capacity, IOException refused) {
        clock = new VirtualClock(EPOCH);
        MemoryDrive drive = new MemoryDrive(clock)
                .being(presence)
                .holding(capacity)
                .writing((now, bytes) -> {
                    if (now >= 20 * S) {
                        throw refused;
                    }
                    return 1_000_000;
                });
        RunRecord record = run(drive, Plan.lineCheck().withIdle(0.0));
        assertThat(drive.leftOpen()).isEmpty();
        return fault(record.phases().get(record.phases().size() - 1)).kind();
    }

    private RunRecord run(String drive, String session, Plan plan) {
        SimulatedDrive simulated =
                new SimulatedDrive(SimulatedDrives.named(drive).orElseThrow(), clock, 30 * S);
        return checked(prepared(simulated, simulated.facts(), session, plan));
    }

    private RunRecord run(Drive drive, Plan plan) {
        return checked(prepared(drive, VirtualRun.memory(1L << 30), "stick-mix-2", plan));
    }

    private RunRecord checked(Run run) {
        RunRecord record = run.call();
        assertThat(snapshots.get(snapshots.size() - 1)).isEqualTo(record);
        return record;
    }

    private Run prepared(Drive drive, DriveFacts facts, String session, Plan plan) {
        RunRequest request = new RunRequest(
                VirtualRun.ID, "tracksoak test", SessionCatalog.shipped().find(session), plan, 7, 30, 64L << 20);
        return new Run(request, TestTarget.onVirtualTime(drive, facts, clock), VirtualRun.HOST, new VirtualRun.Deaf() {
            @Override
            public void snapshot(RunRecord soFar) {
                snapshots.add(soFar);
            }
        });
    }

    private static Fault fault(PhaseFacts facts) {
        return Objects.requireNonNull(facts.fault());
    }

    private static List<PhaseKind> kinds(RunRecord record) {
        return record.phases().stream().map(PhaseFacts::kind).toList();
    }

    private static ReadBackFacts readBack(RunRecord record) {
        return record.phases().stream()
                .filter(phase -> phase.kind() == PhaseKind.READ_BACK)
                .reduce((first, last) -> last)
                .map(PhaseFacts::readBack)
                .orElseThrow();
    }
}
