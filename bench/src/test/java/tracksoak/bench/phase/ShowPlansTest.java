package tracksoak.bench.phase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.phase.run.RunRequest;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.Models;
import tracksoak.bench.simulated.SimulatedDrive;
import tracksoak.bench.simulated.catalog.SimulatedDrives;
import tracksoak.profiles.Key;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.SessionOverrides;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.PlaybackFacts;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.RoundsFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.facts.Verdict.Outcome;

/** The full show, and plans for sessions that play, mix or archive, whole and on virtual time. */
class ShowPlansTest {

    private static final long RESERVE = 256L << 20;
    private static final long GB = 1_000_000_000;

    private long leftOnDrive;

    @Test
    void aFullShowFillsReadsBackTakesAndReadsBackAgain() {
        Session session = shipped("trio-8");
        RunRecord record = run(used("steady-stick", 16 * GB), session, Plan.fullShow(session));
        assertThat(kinds(record))
                .containsExactly(
                        PhaseKind.FILL, PhaseKind.READ_BACK, PhaseKind.TAKE, PhaseKind.CLOSE, PhaseKind.READ_BACK);
        PhaseFacts fill = record.phases().get(0);
        assertThat(Objects.requireNonNull(fill.fill()).ended()).isEqualTo(FillFacts.Ended.FULL);
        // all that was free, less the reserve, a header and at most one chunk per track
        assertThat(fill.bytes()).isBetween(16 * GB - RESERVE - 8 * (65_536 + 131_072) - 131_072, 16 * GB - RESERVE);
        assertThat(back(record, 1).good() * 4096).isEqualTo(fill.bytes());
        assertThat(record.phases().get(2).seconds()).isEqualTo((double) session.lengthS());
        assertThat(verdict(record).outcome()).isEqualTo(Outcome.PASS);
    }

    /** Each of many files rounds up to a cluster of 1 MiB, of which its chunks fill all but the header's. */
    @Test
    void aFillOfManyFilesInLargeClustersComesToItsEnd() {
        Session session = SessionOverrides.none()
                .with(Key.LENGTH, 60L)
                .with(Key.FILE_LIMIT, 16L << 20)
                .with(Key.CHUNK, 1L << 20)
                .with(Key.BUFFER, 30.0)
                .applyTo(shipped("trio-8"));
        DriveModel stick = Models.formatted(used("steady-stick", 4 * GB), "exfat", 1 << 20);
        RunRecord record = run(stick, session, Plan.fullShow(session));
        PhaseFacts fill = record.phases().get(0);
        assertThat(fill.fault()).isNull();
        assertThat(Objects.requireNonNull(fill.fill()).ended()).isEqualTo(FillFacts.Ended.FULL);
        assertThat(verdict(record).outcome()).isEqualTo(Outcome.PASS);
    }

    @Test
    void aTakeLongerThanTheRoomReusesItAndSaysSo() {
        Session session = shipped("trio-8");
        RunRecord record = run(used("steady-stick", 2 * GB), session, Plan.fullShow(session));
        PhaseFacts take = record.phases().get(2);
        assertThat(take.seconds()).isEqualTo((double) session.lengthS());
        RoundsFacts rounds = Objects.requireNonNull(take.rounds());
        long written = take.bytes() + record.phases().get(3).bytes();
        long kept = back(record, 4).blocks() * 4096;
        // 1,152,000 B/s for the whole length do not fit 2 GB; what is there at the end and what was deleted is all
        // there was
        assertThat(written).isGreaterThan(2 * GB);
        assertThat(kept + rounds.deletedBytes() - rounds.deletedFiles() * 4096).isEqualTo(written);
        assertThat(kept).isGreaterThan((long) (0.7 * rounds.roomBytes())).isLessThan(rounds.roomBytes());
        assertThat(back(record, 4).bad()).isZero();
        assertThat(verdict(record).notes()).anySatisfy(note -> assertThat(note).contains("in rounds"));
    }

    @Test
    void fakeCapacityIsFoundByTheFill() {
        Session session = shipped("trio-8");
        DriveModel fake = SimulatedDrives.named("fake-wrap").orElseThrow();
        RunRecord record = run(fake, session, Plan.fullShow(session).withDurations(null, null, 60.0));
        // 8 GB are real; of a fill of 64 GB less the reserve only the last 8 GB can be there
        long real = back(record, 1).good() * 4096;
        assertThat(real / 8e9).isCloseTo(1, within(0.05));
        assertThat(verdict(record).outcome()).isEqualTo(Outcome.FAIL);
        assertThat(criterion(record, "intact").met()).isFalse();
    }

    @ParameterizedTest
    @CsvSource({
        "playback-16, steady-stick, line-check, PASS",
        "playback-16, steady-stick, sound-check, PASS",
        "mixdown-32, steady-stick, line-check, PASS",
        "mixdown-32, steady-stick, sound-check, PASS",
        "mixdown-32, slow-stick, line-check, FAIL",
        "band-32, faded-stick, line-check, PASS",
        "playback-16, faded-stick, line-check, FAIL",
        "mixdown-32, faded-stick, line-check, FAIL",
        "archive-32, steady-stick, line-check, PASS",
        "archive-32, steady-ssd, sound-check, PASS",
        "archive-32, slow-stick, line-check, FAIL",
    })
    void everyKindOfSessionGetsARealVerdict(String name, String drive, String plan, Outcome outcome) {
        Session session = shipped(name);
        Plan asked = plan.equals("line-check") ? Plan.lineCheck() : Plan.soundCheck(session);
        RunRecord record = run(SimulatedDrives.named(drive).orElseThrow(), session, asked);
        assertThat(verdict(record).outcome()).isEqualTo(outcome);
    }

    @Test
    void aPlaybackReadsEveryByteOnceButWhatTheBufferHeldAtFirst() {
        RunRecord record = run(used("steady-stick", 8 * GB), shipped("playback-16"), Plan.lineCheck());
        assertThat(kinds(record))
                .containsExactly(PhaseKind.COPY, PhaseKind.READ_BACK, PhaseKind.PROBES, PhaseKind.PLAYBACK);
        PhaseFacts played = record.phases().get(3);
        // 2 s of buffer hold 4 whole chunks of 64 KiB (455.1 ms each at 144,000 B/s)
        assertThat(played.bytes()).isEqualTo(record.phases().get(0).bytes() - 16 * 4 * 65_536);
        PlaybackFacts facts = Objects.requireNonNull(played.playback());
        assertThat(facts.underruns()).isZero();
        assertThat(facts.silentMs()).isZero();
        assertThat(facts.mix()).isNull();
    }

    private RunRecord run(DriveModel model, Session session, Plan plan) {
        VirtualClock clock = new VirtualClock(1_795_000_000_000L);
        SimulatedDrive drive = model.plug(clock, 30_000_000_000L);
        RunRequest request = new RunRequest(VirtualRun.ID, "tracksoak test", session, plan, 7, 30, RESERVE);
        RunRecord record = VirtualRun.of(request, drive, clock);
        leftOnDrive = drive.facts().freeBytes() == null ? 0 : drive.facts().freeBytes();
        assertThat(leftOnDrive).isGreaterThanOrEqualTo(RESERVE - (1 << 20));
        return record;
    }

    private static DriveModel used(String name, long free) {
        DriveModel model = SimulatedDrives.named(name).orElseThrow();
        return Models.used(model, model.capacityBytes() - free);
    }

    private static Session shipped(String name) {
        return SessionCatalog.shipped().find(name);
    }

    private static Verdict verdict(RunRecord record) {
        return Objects.requireNonNull(record.verdict());
    }

    private static Criterion criterion(RunRecord record, String id) {
        return verdict(record).criteria().stream()
                .filter(each -> each.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    private static ReadBackFacts back(RunRecord record, int phase) {
        return Objects.requireNonNull(record.phases().get(phase).readBack());
    }

    private static List<PhaseKind> kinds(RunRecord record) {
        return record.phases().stream().map(PhaseFacts::kind).toList();
    }
}
