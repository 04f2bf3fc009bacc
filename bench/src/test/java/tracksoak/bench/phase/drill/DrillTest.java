package tracksoak.bench.phase.drill;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.oracle.Sessions;
import tracksoak.bench.phase.TestTarget;
import tracksoak.bench.phase.VirtualRun;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.bench.simulated.ConstantRate;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.SerialFlush;
import tracksoak.bench.simulated.SimulatedDrive;
import tracksoak.bench.simulated.WearOut;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.drill.DrillFile;
import tracksoak.report.record.facts.drill.DrillFile.Use;
import tracksoak.report.record.facts.drill.DrillFindings;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.facts.drill.DrillRecord.State;
import tracksoak.report.record.facts.drill.DrillTrack;
import tracksoak.report.record.json.RecordFormats;

/** Whole drills on virtual time, against what the stated model of the drive lets survive. */
class DrillTest {

    private static final long RATE = 144_000;
    private static final int CHUNK = 64 << 10;
    private static final int TRACKS = 8;
    private static final double CHUNK_S = CHUNK / (double) RATE;
    private static final String ID = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f";

    private final VirtualClock clock = new VirtualClock(1_795_000_000_000L);
    private final List<DrillListener.Stage> stages = new ArrayList<>();
    private final List<DrillRecord> snapshots = new ArrayList<>();

    /** A drive without a memory of its own keeps all it confirmed: lost is what was on its way or in the recorder. */
    @ParameterizedTest
    @ValueSource(doubles = {12, 17.5, 31.9})
    void aDriveThatWritesThroughLosesOnlyWhatWasNotWritten(double pullAfterS) {
        DrillRecord record = drill(drive(new ConstantRate(40_000_000, 40_000_000, 100_000)), pullAfterS);
        assertThat(record.state()).as(record.stateReason()).isEqualTo(State.COMPLETE);
        assertThat(record.tracks()).hasSize(TRACKS);
        long chunks = (long) Math.floor(pullAfterS / CHUNK_S);
        for (DrillTrack track : record.tracks()) {
            assertThat(track.writtenBytes()).isEqualTo(chunks * CHUNK);
            assertThat(track.readableBytes()).isEqualTo(track.writtenBytes());
            assertThat(track.laterBytes()).isZero();
            assertThat(track.droppedBytes()).isZero();
        }
        DrillFindings findings = Objects.requireNonNull(record.findings());
        // found gone by the first write after the pull, that is at the next tick, 0.1 s later at the most
        double foundS = (chunks + 1) * CHUNK_S;
        assertThat(findings.worstLostMs()).isBetween(CHUNK_S * 1e3, (CHUNK_S + 0.2) * 1e3);
        assertThat(Objects.requireNonNull(record.pull()).atS()).isBetween(foundS, foundS + 0.2);
        assertThat(findings.worstBrokenMs()).isZero();
    }

    /**
     * A flush comes with the first chunk once 5 s have passed: tracks × 144,000 B/s × time since then is less than the memory
     * holds, so exactly what was flushed survives.
     */
    @Test
    void aDriveWithAVolatileMemoryKeepsWhatWasFlushed() {
        DrillRecord record = drill(
                drive(
                        new ConstantRate(40_000_000, 40_000_000, 100_000),
                        new SerialFlush(1_000_000, 100_000_000, 64 << 20)),
                18);
        assertThat(record.state()).isEqualTo(State.COMPLETE);
        for (DrillTrack track : record.tracks()) {
            assertThat(track.flushedBytes()).isPositive().isLessThan(track.writtenBytes());
            assertThat(track.readableBytes()).isEqualTo(track.flushedBytes());
            assertThat(track.lostMs()).isCloseTo(track.sinceFlushMs(), within(1e-6));
            assertThat(track.sinceFlushMs()).isLessThan(5_000 + 2 * CHUNK_S * 1e3 + 200);
        }
        assertThat(Objects.requireNonNull(record.findings()).worstBrokenMs()).isZero();
    }

    /** A memory of 1 MiB holds 16 chunks: of 8 tracks each loses its last two at the most, whatever was flushed. */
    @Test
    void aSmallVolatileMemoryLosesNoMoreThanItHolds() {
        DrillRecord record = drill(
                drive(
                        new ConstantRate(40_000_000, 40_000_000, 100_000),
                        new SerialFlush(1_000_000, 100_000_000, 1 << 20)),
                19);
        long lost = record.tracks().stream()
                .mapToLong(track -> track.writtenBytes() - Objects.requireNonNull(track.readableBytes()))
                .sum();
        assertThat(lost).isLessThanOrEqualTo(1 << 20).isPositive();
        assertThat(record.tracks())
                .allSatisfy(track -> assertThat(track.writtenBytes() - Objects.requireNonNull(track.readableBytes()))
                        .isLessThanOrEqualTo(2 * CHUNK));
    }

    @Test
    void theTakeThatWasStoppedFirstOpensAndTheOtherMustBeRepaired() {
        DrillRecord record = drill(drive(new ConstantRate(40_000_000, 40_000_000, 0)), 12);
        assertThat(record.files()).hasSize(2 * TRACKS);
        for (DrillFile file : record.files()) {
            assertThat(file.use()).isEqualTo(file.stoppedFirst() ? Use.OPENS : Use.REPAIR);
            assertThat(file.headerBytes()).isEqualTo(file.stoppedFirst() ? file.wroteBytes() : null);
            assertThat(file.sizeBytes()).isEqualTo(4096 + file.wroteBytes());
        }
        DrillFindings findings = Objects.requireNonNull(record.findings());
        assertThat(findings.stoppedLostMs()).isZero();
        assertThat(findings.savedMs()).isEqualTo(findings.worstLostMs());
        // 5 s at 144,000 B/s, the last block padded (arithmetic)
        assertThat(record.files().get(0).wroteBytes()).isBetween(5 * RATE, 5 * RATE + 4096);
    }

    @Test
    void saysWhatIsToBeDoneInOrderAndKeepsARecordAllTheTime() {
        DrillRecord record = drill(drive(new ConstantRate(40_000_000, 40_000_000, 0)), 12);
        assertThat(stages)
                .containsExactly(
                        DrillListener.Stage.STOP_FIRST,
                        DrillListener.Stage.RECORDING,
                        DrillListener.Stage.GONE,
                        DrillListener.Stage.PLUG_IN,
                        DrillListener.Stage.READING);
        assertThat(snapshots.get(snapshots.size() - 1)).isEqualTo(record);
        assertThat(snapshots)
                .allSatisfy(each -> assertThat(RecordFormats.DRILL.read(RecordFormats.DRILL.bytes(each)))
                        .isEqualTo(each));
    }

    @Test
    void aDriveThatIsNotPulledEndsTheDrill() {
        SimulatedDrive drive = drive(new ConstantRate(40_000_000, 40_000_000, 0));
        DrillRecord record = drill(drive, 12, new Port(drive) {
            @Override
            public void pullAt(long clockNs) {}
        });
        assertThat(record.state()).isEqualTo(State.NOT_PULLED);
        assertThat(record.findings()).isNull();
    }

    /** The first take lasts 5 s, and is closed after it. */
    @Test
    void aDriveThatIsPulledBeforeItWasAskedForIsSaidToHaveBeenPulled() {
        SimulatedDrive drive = drive(new ConstantRate(40_000_000, 40_000_000, 0));
        drive.pullAt(clock.nanoTime() + 2_000_000_000L);
        DrillRecord record = drill(drive, 12);
        assertThat(record.state()).isEqualTo(State.FAILED);
        assertThat(record.stateReason()).isEqualTo("the drive was pulled before it was asked for; run the drill again");
        assertThat(stages).containsExactly(DrillListener.Stage.STOP_FIRST);
    }

    @Test
    void aDriveThatIsPulledAgainWhileItIsReadIsSaidToHaveBeenPulled() {
        SimulatedDrive drive = drive(new ConstantRate(40_000_000, 40_000_000, 0));
        DrillRecord record = drill(drive, 12, new Port(drive) {
            @Override
            public Optional<Back> look() {
                return super.look().map(found -> {
                    ((SimulatedDrive) found.drive()).pullAt(clock.nanoTime() + 20_000_000L);
                    return found;
                });
            }
        });
        assertThat(record.state()).isEqualTo(State.FAILED);
        assertThat(record.stateReason())
                .isEqualTo("the drive was pulled again before all that survived was read; run the drill again");
    }

    @Test
    void aDriveThatFailsIsNotTakenForOneThatWasPulled() {
        DrillRecord record = drill(drive(new ConstantRate(40_000_000, 40_000_000, 0), new WearOut(8_000_000)), 12);
        assertThat(record.state()).isEqualTo(State.FAILED);
        assertThat(record.stateReason()).contains("read only");
    }

    @Test
    void aDriveThatDoesNotComeBackEndsTheDrillAfterTheWait() {
        SimulatedDrive drive = drive(new ConstantRate(40_000_000, 40_000_000, 0));
        DrillRecord record = drill(drive, 12, new Port(drive) {
            @Override
            public Optional<Back> look() {
                return Optional.empty();
            }
        });
        assertThat(record.state()).isEqualTo(State.NOT_BACK);
        assertThat(record.tracks()).hasSize(TRACKS);
        assertThat(record.tracks().get(0).readableBytes()).isNull();
    }

    private SimulatedDrive drive(tracksoak.bench.simulated.Behaviour... behaviours) {
        return DriveModel.of("drill", "for a test", 7, 8L << 30, behaviours).plug(clock, 60_000_000_000L);
    }

    private DrillRecord drill(SimulatedDrive drive, double pullAfterS) {
        return drill(drive, pullAfterS, new Port(drive));
    }

    private DrillRecord drill(SimulatedDrive drive, double pullAfterS, DrillPort port) {
        Session session = Sessions.tracks(TRACKS);
        DrillRequest request = new DrillRequest(ID, "tracksoak", session, 7, 60, 0, 5, pullAfterS, 30, 60);
        return new Drill(
                        request,
                        TestTarget.onVirtualTime(drive, drive.facts(), clock),
                        port,
                        VirtualRun.HOST,
                        new DrillListener() {
                            @Override
                            public void stage(Stage stage) {
                                stages.add(stage);
                            }

                            @Override
                            public void progress(Progress progress) {}

                            @Override
                            public void snapshot(DrillRecord soFar) {
                                snapshots.add(soFar);
                            }
                        })
                .call();
    }

    private static class Port implements DrillPort {
        private final SimulatedDrive drive;

        Port(SimulatedDrive drive) {
            this.drive = drive;
        }

        @Override
        public void pullAt(long clockNs) {
            drive.pullAt(clockNs);
        }

        @Override
        public boolean unreachable() {
            return false;
        }

        @Override
        public Optional<Back> look() {
            return Optional.of(new Back(drive.pluggedInAgain(), null, null, "", false, true));
        }
    }
}
