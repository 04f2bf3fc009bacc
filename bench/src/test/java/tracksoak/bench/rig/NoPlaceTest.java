package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static tracksoak.bench.rig.Verdicts.fault;
import static tracksoak.bench.rig.Verdicts.missed;
import static tracksoak.bench.rig.Verdicts.noVerdict;
import static tracksoak.bench.rig.Verdicts.told;
import static tracksoak.bench.rig.Verdicts.verdict;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import tracksoak.bench.drive.io.FilesLeft;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;

/** A file system can have no place for a file or for more of it while room is left, which is no fault of the drive's. */
@NeedsRig
@Tag("program")
@Execution(ExecutionMode.CONCURRENT)
class NoPlaceTest {

    private static final int TRACKS = 8;

    @TempDir
    Path host;

    /** All tracks change to another file in the middle of the take. */
    @Test
    void noMoreFilesInTheMiddleOfATakeLeaveNoVerdict() {
        try (LoopMount drive = LoopMount.ext4(128, "-N", "64")) {
            Qualifying run = Qualifying.of(drive).when(PhaseKind.TAKE, 1, () -> takeFiles(drive, 0));
            Session session =
                    Shows.tracks(TRACKS).but().fileLimitBytes(512 << 10).build();

            RunRecord record = run.run(session, Shows.take(6), 60);

            assertThat(fault(record).kind()).as(told(record)).isEqualTo(Fault.Kind.NO_ENTRIES);
            assertThat(record.state()).isEqualTo(RunState.BROKEN);
            noVerdict(record);
            assertThat(missed(record)).as(told(record)).isEmpty();
            assertThat(verdict(record).sentence()).contains("no more files, though room was free", "Delete files");
            assertThat(run.clean()).isTrue();
        }
    }

    @Test
    void tooFewFilesAreToldBeforeAnythingIsWritten() {
        try (LoopMount drive = LoopMount.ext4(128, "-N", "64")) {
            takeFiles(drive, TRACKS);
            LeftOnDrive left = LeftOnDrive.before(drive.path());
            try (Program run = Program.qualify(host, drive.path(), "--plan", "line-check", "--take", "2s")) {
                assertThat(run.await()).as(run.output()).isEqualTo(3);
                assertThat(run.output()).contains("free files", "the run makes at least 12", "format the drive");
                assertThat(run.record()).isEmpty();
            }
            left.nothing(drive.path());
        }
    }

    /** Another program makes so many files that only so many more fit. */
    private static void takeFiles(LoopMount drive, long left) {
        try {
            Path taken = Files.createDirectory(drive.path().resolve("taken"));
            for (int file = 0; Objects.requireNonNull(FilesLeft.in(drive.path(), "ext4")) > left; file++) {
                Files.createFile(taken.resolve("" + file));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** A limit of the account's stands for a file system's: the system's number is the same. */
    @Test
    void aFileLargerThanIsAllowedLeavesNoVerdict() {
        try (LoopMount drive = LoopMount.ext4(128)) {
            LeftOnDrive left = LeftOnDrive.before(drive.path());
            try (Program run = Program.limited(
                    host, 2_000_000, drive.path(), "--plan", "line-check", "--take", "40s", "--file-limit", "1GiB")) {
                assertThat(run.await()).as(run.output()).isEqualTo(4);
                RunRecord record = run.record().orElseThrow();
                assertThat(fault(record).kind()).as(told(record)).isEqualTo(Fault.Kind.TOO_LARGE);
                noVerdict(record);
                assertThat(missed(record)).as(told(record)).isEmpty();
                assertThat(verdict(record).sentence()).contains("larger than", "--file-limit");
            }
            left.nothing(drive.path());
        }
    }
}
