package tracksoak.bench.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.Models;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Waiter;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.json.RecordFile;

/** A job is done for whoever asks: an order goes in, news and a record come out. */
class QualifyTest {

    @TempDir
    Path folder;

    private final List<String> news = new ArrayList<>();
    private final Session session = SessionCatalog.shipped().find("trio-8");
    private final Order order = Order.of(session, Plan.lineCheck(), 20, null, 7L);

    /** Notes down what a job tells. */
    private class Ears implements JobListener {

        @Override
        public void note(String sentence) {
            news.add("note: " + sentence);
        }

        @Override
        public void trouble(Problem problem) {
            news.add("trouble: " + problem.getMessage());
        }

        @Override
        public void progress(Progress progress) {
            news.add("progress");
        }

        @Override
        public void idle() {
            news.add("idle");
        }
    }

    private Qualify job() {
        return new Qualify(new TestRooms(folder, List.of()), new Ears());
    }

    /** A dead battery, a slip of the year: said before hours are spent on a run whose record could not be kept. */
    @ParameterizedTest
    @ValueSource(strings = {"1969-12-31T12:00:00Z", "1970-01-01T00:04:00Z", "2250-01-01T00:00:00Z"})
    void noRunBeginsByAClockThatCannotBeRight(String now) {
        SimulatedTarget target = new SimulatedTarget(
                SimulatedTarget.model("steady-stick"), () -> Instant.parse(now).toEpochMilli(), 20);
        assertThatThrownBy(() -> job().onModel(target, order, terms()))
                .isInstanceOf(Problem.class)
                .hasMessageContaining("this computer's clock says " + now.substring(0, 10))
                .hasMessageContaining("set the clock");
        assertThat(folder.resolve("out")).doesNotExist();
    }

    private SimulatedTarget target() {
        return new SimulatedTarget(SimulatedTarget.model("steady-stick"), () -> 1_795_000_000_000L, 20);
    }

    private JobTerms terms() {
        return new JobTerms(false, folder.resolve("out"));
    }

    @Test
    void anOrderGoesInAndNewsAndARecordComeOut() {
        Qualify.Done done = job().onModel(target(), order, terms());
        assertThat(RecordFile.load(done.files().record()).id())
                .isEqualTo(done.record().id())
                .isEqualTo(order.id().toString());
        assertThat(done.record().verdict()).isNotNull();
        assertThat(done.files().report()).isRegularFile();
        assertThat(news).contains("progress").endsWith("idle").doesNotContain("note: ", "trouble: ");
    }

    @Test
    void aPlanTouchesNothing() {
        DryRun would = Qualify.planOnModel(target(), order, terms());
        assertThat(would.budget().mostBytes()).isPositive();
        assertThat(would.records()).isEqualTo(folder.resolve("out").toString());
        assertThat(folder.resolve("out")).doesNotExist();
    }

    @Test
    void aRecordThatCannotBeKeptIsTroubleOnceAndTheRunGoesOn() throws Exception {
        Path record = folder.resolve("out/record.json");
        RunFiles files = RunFiles.in(folder.resolve("out"));
        Files.createDirectories(record.resolve("in-the-way"));
        RunKeeper keeper = new RunKeeper(files, new Ears(), () -> 0, true);
        Qualify.Done done = job().onModel(target(), order, new JobTerms(false, folder.resolve("other")));
        news.clear();
        keeper.snapshot(done.record());
        keeper.snapshot(done.record());
        assertThat(news).singleElement().asString().startsWith("trouble: ").contains("; the run goes on");
    }

    @Test
    void theVerdictIsNotLostWithARecordThatCannotBeKept() throws Exception {
        Qualify job = new Qualify(new TestRooms(folder, List.of()), new Ears() {
            @Override
            public void idle() {
                try {
                    Path record = folder.resolve("out/record.json");
                    if (Files.isRegularFile(record)) {
                        Files.delete(record);
                        Files.createDirectories(record.resolve("in-the-way"));
                    }
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
            }
        });
        assertThatThrownBy(() -> job.onModel(target(), order, terms()))
                .isInstanceOf(Problem.class)
                .hasMessageStartingWith("the verdict is PASS (")
                .hasMessageContaining("), and it was not kept: the run record cannot be saved");
    }

    @Test
    void aFolderWithoutRoomForTheRecordIsRefusedAtOnce() {
        Path full = Path.of("/proc");
        if (Files.isDirectory(full)) {
            assertThatThrownBy(() -> RunFiles.in(full.resolve("out"))).hasMessageContaining("name another folder");
        }
    }

    @Test
    void aSimulatedDriveThatIsFullIsRefusedAsARealOneIs() {
        DriveModel stick = SimulatedTarget.model("steady-stick");
        SimulatedTarget full =
                new SimulatedTarget(Models.used(stick, stick.capacityBytes()), () -> 1_795_000_000_000L, 20);
        assertThat(full.facts().freeBytes()).isZero();
        assertThatThrownBy(() -> job().onModel(full, order, terms()))
                .hasMessageContaining("free room 0 B: the plan needs");
        Order greedy = Order.of(session, Plan.lineCheck(), 20, 99_000_000_000_000L, 7L);
        assertThatThrownBy(() -> job().onModel(target(), greedy, terms())).hasMessageContaining("99 TB stay free");
        assertThat(folder.resolve("out")).doesNotExist();
    }

    @Test
    void whatIsSwitchedOffBeforeItBeginsEndsAtOnce() {
        Qualify job = job();
        job.off().cancel();
        Qualify.Done done = job.onModel(target(), order, terms());
        assertThat(done.record().state()).isEqualTo(tracksoak.report.record.facts.RunState.INTERRUPTED);
    }

    /** A drive that does something else when its files are deleted. */
    private record DyingAtTheEnd(SimulatedTarget drives, Fault.Kind kind) implements OpenTarget {

        @Override
        public Drive drive() {
            return drives.drive();
        }

        @Override
        public DriveFacts facts() {
            return drives.facts();
        }

        @Override
        public NanoClock clock() {
            return drives.clock();
        }

        @Override
        public EpochClock epoch() {
            return drives.epoch();
        }

        @Override
        public Waiter waiter() {
            return drives.waiter();
        }

        @Override
        public boolean virtual() {
            return true;
        }

        @Override
        public Fault.Kind clean() {
            drives.clean();
            return kind;
        }

        @Override
        public String leftIn() {
            return drives.leftIn();
        }
    }

    /** Deleting is part of the test: who trusted a drive that died of it would learn so at the show. */
    @ParameterizedTest
    @EnumSource(
            value = Fault.Kind.class,
            names = {"HUNG", "GONE", "READ_ONLY", "IO_ERROR"})
    void aDriveThatFailsWhileItsFilesAreDeletedDoesNotPass(Fault.Kind kind) {
        RunFiles files = RunFiles.in(folder.resolve("out"));
        OpenTarget dying = new DyingAtTheEnd(target(), kind);
        RunRecord record = new RunJob(new Ears()).run(order, dying, new TestRooms(folder, List.of()).host(), files);
        PhaseFacts last = record.phases().get(record.phases().size() - 1);
        assertThat(Objects.requireNonNull(last.fault()).kind()).isEqualTo(kind);
        assertThat(Objects.requireNonNull(record.verdict()).outcome()).isEqualTo(Verdict.Outcome.FAIL);
        assertThat(record.verdict().sentence()).contains("the drive failed while that was deleted");
        assertThat(RecordFile.load(files.record()).verdict()).isEqualTo(record.verdict());
    }

    @Test
    void whoElseKeepsFilesFromBeingDeletedIsNotHeldAgainstTheDrive() {
        for (IOException other : List.of(
                new AccessDeniedException("take-001"),
                new DirectoryNotEmptyException("TRACKSOAK-1"),
                new NoSuchFileException("take-001"))) {
            assertThat(RealTarget.fault(Drive.Presence.PRESENT, other)).isNull();
        }
        IOException error = new FileSystemException("take-001", null, "an error");
        assertThat(RealTarget.fault(Drive.Presence.PRESENT, error)).isEqualTo(Fault.Kind.IO_ERROR);
        assertThat(RealTarget.fault(Drive.Presence.GONE, error)).isEqualTo(Fault.Kind.GONE);
        assertThat(RealTarget.fault(Drive.Presence.READ_ONLY, error)).isEqualTo(Fault.Kind.READ_ONLY);
    }
}
