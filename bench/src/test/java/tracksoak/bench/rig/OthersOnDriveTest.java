package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static tracksoak.bench.rig.Verdicts.fault;
import static tracksoak.bench.rig.Verdicts.missed;
import static tracksoak.bench.rig.Verdicts.noVerdict;
import static tracksoak.bench.rig.Verdicts.phase;
import static tracksoak.bench.rig.Verdicts.told;
import static tracksoak.bench.rig.Verdicts.verdict;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Verdict.Outcome;

/** What another program does to the drive, or somebody to the clock, must not be laid at the drive's door. */
@NeedsRig
@Execution(ExecutionMode.CONCURRENT)
class OthersOnDriveTest {

    private static final int TRACKS = 8;

    /** The true clock of a machine that others use cannot be set, so the bench is handed one that jumps. */
    @Test
    void aClockThatIsSetDuringTheRunLeavesDurationsAlone() {
        AtomicLong jumpMs = new AtomicLong();
        try (Rig rig = Rig.of(FileSystem.EXT4, 256)) {
            rig.drive().set(Faults.none().rate(10_000_000));
            Qualifying run = Qualifying.of(rig)
                    .epoch(() -> SystemClocks.EPOCH.epochMillis() + jumpMs.get())
                    .when(PhaseKind.TAKE, 2, () -> jumpMs.set(-3_600_000));

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.take(5), 60);

            PhaseFacts take = phase(record, PhaseKind.TAKE);
            assertThat(Objects.requireNonNull(take.hostDelays()).clockStepMs())
                    .as(told(record))
                    .isBetween(-3_600_500.0, -3_599_500.0);
            assertThat(take.seconds()).isEqualTo(5.0);
            assertThat(take.lostMs()).isZero();
            assertThat(verdict(record).outcome()).as(told(record)).isIn(Outcome.PASS, Outcome.NO_VERDICT);
            assertThat(missed(record)).as(told(record)).isEmpty();
            run.leavesNothing();
        }
    }

    @Test
    void anotherProgramThatWritesIsNotTakenForTheDrive() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 512)) {
            rig.drive().set(Faults.none().rate(8_000_000));
            Qualifying run = Qualifying.of(rig);
            try (Intruder intruder = new Intruder(rig.path().resolve("holiday-pictures"))) {
                RunRecord record = run.run(Shows.tracks(2 * TRACKS), Shows.take(12), 120);

                assertThat(intruder.bytes()).isGreaterThan(40L << 20);
                assertThat(Verdicts.criterion(record, "rate-margin").met())
                        .as(told(record))
                        .isNull();
                noVerdict(record);
                assertThat(verdict(record).reasons().toString()).containsIgnoringCase("program");
                run.leavesNothing("holiday-pictures");
            }
        }
    }

    @Test
    void anotherProgramThatFillsTheDriveLeavesNoVerdict() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 128)) {
            Qualifying run = Qualifying.of(rig);
            List<Intruder> intruders = new ArrayList<>();
            run.when(
                    PhaseKind.TAKE,
                    1,
                    () -> intruders.add(new Intruder(rig.path().resolve("film"))));

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.take(20), 120);

            for (Intruder intruder : intruders) {
                intruder.close();
            }
            assertThat(fault(record).kind()).as(told(record)).isEqualTo(Fault.Kind.NO_SPACE);
            assertThat(record.state()).isEqualTo(RunState.BROKEN);
            noVerdict(record);
            assertThat(missed(record)).as(told(record)).isEmpty();
            run.leavesNothing("film");
        }
    }

    /** Somebody else's program that writes to the same drive. */
    private static final class Intruder implements AutoCloseable {
        private final AtomicBoolean stop = new AtomicBoolean();
        private final AtomicLong bytes = new AtomicLong();
        private final Thread thread;

        private Intruder(Path file) {
            thread = new Thread(() -> write(file), "intruder");
            thread.setDaemon(true);
            thread.start();
        }

        private void write(Path file) {
            byte[] some = new byte[1 << 21];
            try (OutputStream out =
                    Files.newOutputStream(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.DSYNC)) {
                while (!stop.get()) {
                    out.write(some);
                    bytes.addAndGet(some.length);
                }
            } catch (IOException full) {
                // it has taken all there was
            }
        }

        private long bytes() {
            return bytes.get();
        }

        @Override
        public void close() {
            stop.set(true);
            assertThat(Host.await(20_000, () -> !thread.isAlive())).isTrue();
        }
    }
}
