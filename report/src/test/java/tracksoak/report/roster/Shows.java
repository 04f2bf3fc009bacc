package tracksoak.report.roster;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.report.record.PhaseSketch;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.verdict.Judge;

/** Records of an invented touring theatre's drives, made by turning one thing of a good run. Tests only. */
public final class Shows {

    /** The hour the crew's tests begin. */
    public static final Instant START = Instant.parse("2026-02-14T18:00:00Z");

    public final RunSketch sketch = RunSketch.good();
    public @Nullable String maker = "Makers of the Barn";
    public @Nullable String model = "Stick <64>";
    public @Nullable String serial = "B4RN-0001";
    public @Nullable String tag;
    public Instant endedAt = START;
    public @Nullable Instant began;
    public String id = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f";

    /** A sound-check that passed. */
    public static Shows pass(String serial, Instant endedAt) {
        Shows show = new Shows();
        show.serial = serial;
        show.endedAt = endedAt;
        show.id = new UUID(
                        (endedAt.toEpochMilli() << 16) | 0x7000,
                        0x8000_0000_0000_0000L | (serial.hashCode() & 0xFFFF_FFFFL))
                .toString();
        return show;
    }

    /** A sound-check in which audio was lost. */
    public static Shows fail(String serial, Instant endedAt) {
        Shows show = pass(serial, endedAt);
        show.sketch.phase(PhaseKind.TAKE).lostMs = 400;
        show.sketch.phase(PhaseKind.TAKE).lostTrackMs = 800;
        return show;
    }

    /** A full-show that passed. */
    public static Shows fullShow(String serial, Instant endedAt) {
        Shows show = pass(serial, endedAt);
        show.sketch.plan = new PlanFacts(
                "full-show",
                false,
                0,
                86_400,
                show.sketch.session.lengthS(),
                60,
                250_000_000_000L,
                null,
                true,
                0,
                0,
                0,
                0,
                "");
        PhaseSketch fill = PhaseSketch.fill(5_000, 40e6);
        fill.fill = new FillFacts(
                FillFacts.Ended.FULL,
                true,
                10,
                Collections.nCopies(500, 40e6),
                40e6,
                10,
                null,
                null,
                null,
                200_000_000_000L);
        show.sketch.phases = new ArrayList<>(List.of(
                fill,
                PhaseSketch.readBack(200_000_000_000L),
                PhaseSketch.take((double) show.sketch.session.lengthS(), RunSketch.DEMAND),
                PhaseSketch.close(),
                PhaseSketch.readBack(show.sketch.session.lengthS() * RunSketch.DEMAND)));
        return show;
    }

    /** A line-check that passed, which is not enough for trust. */
    public static Shows lineCheck(String serial, Instant endedAt) {
        Shows show = pass(serial, endedAt);
        RunSketch brief = RunSketch.goodLineCheck();
        show.sketch.plan = brief.plan;
        show.sketch.phases = brief.phases;
        return show;
    }

    /** The same on another drive. */
    public Shows hardware(String maker, String model) {
        this.maker = maker;
        this.model = model;
        return this;
    }

    /** The same for another session. */
    public Shows session(Session session) {
        double larger = session.bytesPerSecond() / (double) sketch.session.bytesPerSecond();
        if (larger > 1) {
            sketch.phases.stream().filter(phase -> phase.kind == PhaseKind.TAKE).forEach(take -> {
                take.bytes = Math.round(take.bytes * larger);
                take.device = new DeviceEvidence(take.bytes, 0, take.bytes);
            });
            sketch.phases.stream().filter(phase -> phase.kind == PhaseKind.FILL).forEach(fill -> {
                fill.bytes = Math.max(fill.bytes, session.bytesPerSecond() * session.lengthS());
                fill.device = new DeviceEvidence(fill.bytes, 0, fill.bytes);
            });
            PhaseSketch back = sketch.phase(PhaseKind.READ_BACK);
            long written = sketch.phases.stream()
                    .filter(phase -> phase.kind != PhaseKind.READ_BACK)
                    .mapToLong(phase -> phase.bytes)
                    .sum();
            sketch.phases.set(sketch.phases.indexOf(back), PhaseSketch.readBack(written));
        }
        sketch.session = session;
        return this;
    }

    /** The record, judged. */
    public RunRecord record() {
        RunRecord run = sketch.record();
        RunRecord made = new RunRecord(
                run.schema(),
                id,
                run.tool(),
                (began == null ? endedAt.minusSeconds(3000) : began).toString(),
                endedAt.toString(),
                run.state(),
                run.stateReason(),
                run.seed(),
                run.session(),
                run.plan(),
                RunSketch.named(run.drive(), maker, model, serial),
                tag,
                run.host(),
                run.method(),
                run.ready(),
                run.phases(),
                null);
        return made.withVerdict(Judge.judge(made));
    }

    /** The record, judged and signed. */
    public SignedRecord signed(TesterKey key) {
        return SignedRecord.sign(record(), key);
    }
}
