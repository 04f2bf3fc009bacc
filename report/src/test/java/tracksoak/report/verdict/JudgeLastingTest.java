package tracksoak.report.verdict;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tracksoak.report.record.PhaseSketch;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.FillFacts.Ended;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.Overrun;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.ReadBackFacts.Origin;
import tracksoak.report.record.facts.RunState;

/**
 * What another run would leave open again, and what may pass. A session of 3 h at 4.608 MB/s writes 49.77 GB; the fill takes
 * 2000 s and comes to its cap before that.
 */
class JudgeLastingTest {

    private static final double SESSION_BYTES = 3 * 3600 * 4_608_000.0;

    private final RunSketch run = RunSketch.good();
    private PhaseSketch fill;

    @BeforeEach
    void capTheFill() {
        fill = run.phase(PhaseKind.FILL);
        capped(SESSION_BYTES / 2);
    }

    private void capped(double bytes) {
        FillFacts old = Objects.requireNonNull(fill.fill);
        fill.fill = new FillFacts(
                Ended.CAP,
                false,
                10,
                old.roundsBytesPerSecond(),
                old.floorBytesPerSecond(),
                10,
                null,
                null,
                null,
                old.room());
        fill.bytes = Math.round(bytes);
        fill.device = new DeviceEvidence(fill.bytes, 0, fill.bytes);
    }

    private void late(PhaseSketch phase, double lateMs, double sleptMs) {
        phase.hostDelays = new HostDelays(5, lateMs, 0, 0, sleptMs, 0, true);
    }

    @Test
    void aFillCappedByTheDrivesPaceIsCappedAgain() {
        assertThat(Judge.lasting(run.record(), Set.of()))
                .singleElement()
                .asString()
                .startsWith("The fill stopped after ")
                .contains("raise the cap of the fill");
    }

    @Test
    void aFillThatCameFarEnoughLeavesNothingOpen() {
        capped(SESSION_BYTES);
        assertThat(Judge.lasting(run.record(), Set.of())).isEmpty();
    }

    /** 10 % of 2000 s are 200 s. */
    @Test
    void aComputerLateInTheFillMayBeInTimeTheNextTime() {
        late(fill, 200_000, 0);
        assertThat(Judge.lasting(run.record(), Set.of())).isNotEmpty();
        late(fill, 200_001, 0);
        assertThat(Judge.lasting(run.record(), Set.of())).isEmpty();
        late(fill, 0, 501);
        assertThat(Judge.lasting(run.record(), Set.of())).isEmpty();
    }

    /** 5 % late: the bytes a fill without it writes are those written ÷ 0.95. */
    @Test
    void aLittleLatenessCountsWhereItCostTheBytesThatLack() {
        late(fill, 100_000, 0);
        capped(SESSION_BYTES * 0.949);
        assertThat(Judge.lasting(run.record(), Set.of())).isNotEmpty();
        capped(SESSION_BYTES * 0.951);
        assertThat(Judge.lasting(run.record(), Set.of())).isEmpty();
    }

    /** The way to the device is as long the next time. */
    @Test
    void whatTheWayToTheDeviceDecidedStaysOpen() {
        capped(SESSION_BYTES);
        PhaseSketch take = run.phase(PhaseKind.TAKE);
        run.ioMode = IoMode.WRITE_THROUGH;
        take.busyFraction = 0.9;
        take.device = new DeviceEvidence(take.bytes, 0, take.bytes, 450 * take.seconds, null);
        assertThat(Judge.lasting(run.record(), Set.of()))
                .singleElement()
                .asString()
                .contains("on the way there");
    }

    /** A loss that the computer may have caused can turn out the drive's: that is worth another run. */
    @Test
    void aCriterionTheComputerLeftOpenMayBeSettled() {
        PhaseSketch take = run.phase(PhaseKind.TAKE);
        take.lostMs = 40;
        take.overruns.add(new Overrun(3, 40, 32, 40));
        take.peakBacklogHostMs = 1500;
        assertThat(Judge.lasting(run.record(), Set.of())).isEmpty();
        assertThat(Judge.lasting(run.record(), Set.of(CriterionId.LOST_AUDIO, CriterionId.BUFFER_MARGIN)))
                .isNotEmpty();
    }

    /** That the computer was late too can pass, but a PASS would still not come of it. */
    @Test
    void latenessBesideItChangesNothing() {
        late(run.phase(PhaseKind.TAKE), 45_000, 0);
        assertThat(Judge.judge(run.record()).reasons().get(0)).contains("The computer was late");
        assertThat(Judge.lasting(run.record(), Set.of())).isNotEmpty();
    }

    @Test
    void aMissIsAnAnswer() {
        run.phase(PhaseKind.TAKE).lostMs = 40;
        run.phase(PhaseKind.TAKE).overruns.add(new Overrun(3, 40, 32, 0));
        assertThat(Judge.lasting(run.record(), Set.of())).isEmpty();
    }

    @Test
    void aRunThatDidNotEndMayEndTheNextTime() {
        run.state = RunState.INTERRUPTED;
        assertThat(Judge.lasting(run.record(), Set.of())).isEmpty();
    }

    @Test
    void whatThisComputerNeverShowsLasts() {
        capped(SESSION_BYTES);
        run.freeBytes = null;
        assertThat(Judge.lasting(run.record(), Set.of()))
                .singleElement()
                .asString()
                .contains("free room");
        run.freeBytes = 200_000_000_000L;
        run.fileSystem = null;
        assertThat(Judge.lasting(run.record(), Set.of()))
                .singleElement()
                .asString()
                .contains("file system");
        run.fileSystem = "exfat";
        run.ioMode = IoMode.WRITE_THROUGH;
        PhaseSketch back = run.phase(PhaseKind.READ_BACK);
        ReadBackFacts old = Objects.requireNonNull(back.readBack);
        back.readBack = new ReadBackFacts(
                old.blocks(),
                old.good(),
                old.missing(),
                old.stale(),
                old.misplaced(),
                old.flipped(),
                old.unreadable(),
                old.unread(),
                Origin.UNKNOWN,
                old.examples());
        assertThat(Judge.lasting(run.record(), Set.of()))
                .singleElement()
                .asString()
                .contains("Nothing shows");
        assertThat(Judge.lasting(run.record(), Set.of(CriterionId.INTACT))).isEmpty();
    }
}
