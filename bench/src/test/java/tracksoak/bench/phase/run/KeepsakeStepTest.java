package tracksoak.bench.phase.run;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.phase.VirtualRun;
import tracksoak.bench.simulated.Behaviour;
import tracksoak.bench.simulated.ConstantRate;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.Fading;
import tracksoak.bench.simulated.SimulatedDrive;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.bench.stream.KeepsakeList;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.KeepsakeFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.json.RecordJson;

/** What was left on a simulated drive, read 300 days later on virtual time. */
class KeepsakeStepTest {

    private static final long DAY_NS = 86_400_000_000_000L;
    private static final long EPOCH = 1_795_000_000_000L;
    private static final String OLD = "017f22e2-79b0-7cc3-98c4-aaaaaaaaaaaa";
    private static final String NEW = "017f22e2-79b0-7cc3-98c4-bbbbbbbbbbbb";
    private static final int CHUNKS = 50;
    private static final int CHUNK = 64 << 10;

    private final VirtualClock clock = new VirtualClock(EPOCH);

    private SimulatedDrive drive(Behaviour... more) {
        List<Behaviour> behaviours = new java.util.ArrayList<>(List.of(new ConstantRate(40_000_000, 90_000_000, 0)));
        behaviours.addAll(List.of(more));
        return DriveModel.of("keeper", "a stick", 5, 32_000_000_000L, behaviours.toArray(Behaviour[]::new))
                .plug(clock, 60_000_000_000L);
    }

    /** Three files of 50 chunks of 64 KiB, as a run of that id would leave them. */
    private static KeepsakeList leave(Drive drive) throws IOException {
        long run = UUID.fromString(OLD).getLeastSignificantBits();
        StreamFiles files = new StreamFiles(drive, "kept", 4, run, 3, 1L << 30);
        ChunkStamper stamper = new ChunkStamper(run, 1, drive.keepsBodies(), CHUNK, drive.alignmentBytes());
        for (int stream = 0; stream < 3; stream++) {
            files.begin(stream);
            for (int chunk = 0; chunk < CHUNKS; chunk++) {
                files.append(stream, stamper.stamp(stream, 4, files.nextBlock(stream), CHUNK));
            }
            files.close(stream);
        }
        return new KeepsakeList(OLD, "2026-11-18T12:53:20Z", files.written());
    }

    private RunRecord run(SimulatedDrive drive, @Nullable Drive where, KeepsakeList list, boolean known) {
        RunRequest request = new RunRequest(
                NEW,
                "test",
                SessionCatalog.shipped().find("trio-8"),
                Plan.lineCheck(),
                7,
                60,
                64L << 20,
                RunExtras.NOTHING.reading(List.of(new Keepsake(where, list, known))));
        RunRecord record = VirtualRun.of(request, drive, clock);
        assertThat(RecordJson.read(RecordJson.bytes(record))).isEqualTo(record);
        return record;
    }

    private static Criterion intact(RunRecord record) {
        return Objects.requireNonNull(record.verdict()).criteria().stream()
                .filter(each -> each.id().equals("intact"))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void whatWasKeptIsProvenOverTheDaysItLay() throws IOException {
        SimulatedDrive drive = drive();
        KeepsakeList list = leave(drive);
        clock.advance(300 * DAY_NS);
        RunRecord record = run(drive, drive, list, true);
        PhaseFacts phase = record.phases().get(0);
        assertThat(phase.kind()).isEqualTo(PhaseKind.KEEPSAKE);
        KeepsakeFacts facts = Objects.requireNonNull(phase.keepsake());
        assertThat(facts.runId()).isEqualTo(OLD);
        assertThat(facts.days()).isCloseTo(300, within(1.0));
        assertThat(facts.bytes()).isEqualTo(3L * CHUNKS * CHUNK);
        ReadBackFacts found = Objects.requireNonNull(phase.readBack());
        assertThat(found.good()).isEqualTo(3L * CHUNKS * CHUNK / 4096).isEqualTo(found.blocks());
        assertThat(phase.bytes()).isEqualTo(facts.bytes());
        Verdict verdict = Objects.requireNonNull(record.verdict());
        assertThat(verdict.outcome()).as(verdict.sentence()).isEqualTo(Verdict.Outcome.PASS);
        assertThat(verdict.notes())
                .anyMatch(note -> note.contains("300 days ago, 9.83 MB were read and are as written"));
    }

    /** How many blocks really come back wrong is counted here, past the bench's own read-back. */
    @Test
    void blocksThatFadedFailTheDriveAndAreNamed() throws IOException {
        SimulatedDrive drive = drive(new Fading(100 * DAY_NS, 200));
        KeepsakeList list = leave(drive);
        clock.advance(300 * DAY_NS);
        long wrong = 0;
        ByteBuffer buffer = ByteBuffer.allocateDirect(8192).alignedSlice(4096).order(ByteOrder.LITTLE_ENDIAN);
        for (var file : list.files()) {
            try (DriveFile open = drive.open(file.name())) {
                for (long block = 0; block < file.blocks(); block++) {
                    open.read(buffer.clear().limit(4096), file.headerBytes() + block * 4096);
                    wrong += buffer.getInt(0) != 0 ? 1 : 0;
                }
            }
        }
        assertThat(wrong).isPositive();
        RunRecord record = run(drive, drive, list, true);
        ReadBackFacts found = Objects.requireNonNull(record.phases().get(0).readBack());
        assertThat(found.flipped()).isEqualTo(wrong).isEqualTo(found.bad());
        assertThat(found.examples().get(0)).startsWith("kept-track-000").contains("pass 4 is damaged");
        assertThat(intact(record).met()).isFalse();
        assertThat(intact(record).sentence())
                .startsWith("The drive has lost part of what the run of 2026-11-18 left on it 300 days ago: " + wrong
                        + " of 2400 blocks (" + wrong + " changed).");
        // what this run wrote itself is all good, so nothing else is held against it
        assertThat(Objects.requireNonNull(
                                record.phases().get(record.phases().size() - 1).readBack())
                        .bad())
                .isZero();
        assertThat(Objects.requireNonNull(record.verdict()).outcome()).isEqualTo(Verdict.Outcome.FAIL);
    }

    @Test
    void filesThatAreGoneAreSaidAndAreNoFault() throws IOException {
        SimulatedDrive drive = drive();
        KeepsakeList list = leave(drive);
        drive.delete(list.files().get(1).name());
        RunRecord record = run(drive, drive, list, true);
        assertThat(Objects.requireNonNull(record.phases().get(0).keepsake()).filesGone())
                .isEqualTo(1);
        assertThat(Objects.requireNonNull(record.verdict()).outcome()).isEqualTo(Verdict.Outcome.PASS);
        assertThat(Objects.requireNonNull(record.verdict()).notes())
                .anyMatch(note -> note.contains("1 of 3 files are not there any more"));
    }

    /** Whoever opens a file can cut it short, and so can a drive that lost its tables: neither is known. */
    @Test
    void aFileThatIsShorterThanItWasLeftLeavesItOpenWhoCutIt() throws IOException {
        SimulatedDrive drive = drive();
        KeepsakeList short_ = leave(drive);
        long blocks = short_.files().get(0).blocks();
        List<WrittenFile> once = new ArrayList<>(short_.files());
        WrittenFile cut = once.get(1);
        once.set(
                1,
                new WrittenFile(
                        cut.name(), cut.stream(), cut.pass(), cut.firstBlock(), cut.blocks() + 100, cut.headerBytes()));
        KeepsakeList list = new KeepsakeList(OLD, short_.writtenAt(), once);

        RunRecord record = run(drive, drive, list, true);
        ReadBackFacts found = Objects.requireNonNull(record.phases().get(0).readBack());
        assertThat(found.bad()).isZero();
        assertThat(found.good()).isEqualTo(3 * blocks);
        assertThat(found.unread()).isEqualTo(100);
        assertThat(intact(record).met()).isNull();
        assertThat(intact(record).sentence())
                .contains(
                        "files are shorter than they were left: 100 of " + (3 * blocks + 100) + " blocks",
                        cut.name() + " ends after 3.28 MB of 3.69 MB",
                        "by somebody or by the drive",
                        "tracksoak clear PATH");
        assertThat(Objects.requireNonNull(record.verdict()).outcome()).isEqualTo(Verdict.Outcome.NO_VERDICT);
        assertThat(record.verdict().notes()).noneMatch(note -> note.contains("shorter"));
        // of a list that anybody may have written it is said, and no more
        Verdict unsure = Objects.requireNonNull(run(drive(), drive, list, false).verdict());
        assertThat(unsure.outcome()).as(unsure.sentence()).isEqualTo(Verdict.Outcome.PASS);
        assertThat(unsure.notes()).anyMatch(note -> note.contains("shorter"));
    }

    @Test
    void aFormattedDriveIsSaid() throws IOException {
        KeepsakeList list = leave(drive());
        RunRecord record = run(drive(), null, list, true);
        PhaseFacts phase = record.phases().get(0);
        assertThat(phase.readBack()).isNull();
        assertThat(Objects.requireNonNull(record.verdict()).outcome()).isEqualTo(Verdict.Outcome.PASS);
        assertThat(Objects.requireNonNull(record.verdict()).notes())
                .anyMatch(
                        note -> note.startsWith("Retention is not tested") && note.contains("or the drive formatted"));
    }

    /** A list found beside the files may have been changed: blocks it alone says are wrong do not fail the drive. */
    @Test
    void aListFromTheDriveAloneCannotFailADriveThatIsSound() throws IOException {
        SimulatedDrive drive = drive();
        KeepsakeList true_ = leave(drive);
        KeepsakeList changed = new KeepsakeList(
                OLD,
                true_.writtenAt(),
                true_.files().stream()
                        .map(file -> new tracksoak.bench.stream.WrittenFile(
                                file.name(), file.stream(), file.pass(), 77, file.blocks(), file.headerBytes()))
                        .toList());
        assertThat(intact(run(drive, drive, changed, false)).met()).isTrue();
    }
}
