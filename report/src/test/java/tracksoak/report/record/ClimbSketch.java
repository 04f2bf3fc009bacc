package tracksoak.report.record;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.ClimbResult;
import tracksoak.report.record.facts.ClimbStep;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Seed;
import tracksoak.report.record.facts.Verdict;

/** Climbs of an invented touring theatre's drive, for tests. */
public final class ClimbSketch {

    private static final String ID = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f";

    private ClimbSketch() {}

    /** A climb with both numbers confirmed. */
    public static ClimbRecord found() {
        RunRecord run = RunSketch.good().record();
        List<ClimbStep> steps = new ArrayList<>();
        steps.add(step(ClimbStep.Kind.TAKE, 24, 4.1, 2.02, 0, true));
        steps.add(step(ClimbStep.Kind.TAKE, 25, 3.9, 1.94, 0, false, "rate-margin"));
        steps.add(step(ClimbStep.Kind.TAKE, 38, 1.2, 1.27, 0, false, "buffer-margin", "rate-margin"));
        steps.add(step(ClimbStep.Kind.TAKE, 39, 1.0, 1.24, 310, false, "lost-audio", "buffer-margin", "rate-margin"));
        steps.add(step(ClimbStep.Kind.CHECK, 24, 3.6, 2.0, 0, true));
        steps.add(step(ClimbStep.Kind.CHECK, 38, 1.1, 1.26, 0, false, "buffer-margin", "rate-margin"));
        return of(
                run,
                steps,
                new ClimbResult(
                        Verdict.Outcome.PASS,
                        "24 tracks with 2× margin, 38 tracks before audio is lost. At 25 tracks the rate margin is too small.",
                        new ClimbResult.Edge(ClimbResult.How.CONFIRMED, 24, 25, List.of("rate-margin")),
                        new ClimbResult.Edge(ClimbResult.How.CONFIRMED, 38, 39, List.of("lost-audio", "buffer-margin")),
                        List.of(),
                        List.of("The recorder's buffer of 2 s is a guess; with another buffer the numbers change.")),
                RunState.COMPLETE);
    }

    /** A climb that a person stopped before anything was confirmed, in words that try to break out of the page. */
    public static ClimbRecord hostile() {
        String nasty = "</script></textarea><img src=x onerror=alert(1)>\u202e\n{{7*7}}";
        ClimbResult.Edge nothing = new ClimbResult.Edge(ClimbResult.How.UNFINISHED, null, null, List.of());
        RunRecord run = RunSketch.good().record();
        ClimbRecord plain = of(
                run,
                List.of(step(ClimbStep.Kind.TAKE, 24, null, null, 0, null, nasty)),
                new ClimbResult(Verdict.Outcome.NO_VERDICT, nasty, nothing, nothing, List.of(nasty), List.of(nasty)),
                RunState.INTERRUPTED);
        DriveFacts drive = plain.drive();
        return new ClimbRecord(
                plain.schema(),
                plain.id(),
                nasty,
                plain.startedAt(),
                plain.endedAt(),
                plain.state(),
                nasty,
                plain.seed(),
                plain.session(),
                new ClimbRecord.Ladder(ClimbRecord.Grows.TRACKS, 1, 64, nasty),
                plain.plan(),
                DriveFacts.builder()
                        .maker(nasty)
                        .model(nasty)
                        .serial(nasty)
                        .sizeBytes(drive.sizeBytes())
                        .bus(nasty)
                        .linkSuspect(drive.linkSuspect())
                        .node(nasty)
                        .mount(nasty)
                        .folder(nasty)
                        .fileSystem(nasty)
                        .checkByHand(List.of(nasty))
                        .build(),
                plain.host(),
                null,
                null,
                plain.steps(),
                plain.result());
    }

    /** The first snapshot of a climb. */
    public static ClimbRecord begun() {
        return of(RunSketch.good().record(), List.of(), null, RunState.RUNNING);
    }

    private static ClimbRecord of(RunRecord run, List<ClimbStep> steps, @Nullable ClimbResult result, RunState state) {
        return new ClimbRecord(
                ClimbRecord.SCHEMA,
                ID,
                "tracksoak test",
                "2026-05-17T09:00:00Z",
                result == null ? null : "2026-05-17T10:10:00Z",
                state,
                state == RunState.INTERRUPTED ? "stopped by a person" : "",
                new Seed(-42),
                run.session(),
                new ClimbRecord.Ladder(ClimbRecord.Grows.TRACKS, 1, 64, "More was not tried."),
                new ClimbRecord.Plan(60, 1200, new ClimbRecord.Check(300, 3600, 600), false, false, true),
                run.drive(),
                run.host(),
                IoMode.DIRECT,
                run.phases().stream()
                        .map(PhaseFacts::fill)
                        .filter(java.util.Objects::nonNull)
                        .findFirst()
                        .orElse(null),
                steps,
                result);
    }

    private static ClimbStep step(
            ClimbStep.Kind kind,
            int at,
            @Nullable Double buffer,
            @Nullable Double rate,
            double lostMs,
            @Nullable Boolean carried,
            String... missed) {
        boolean check = kind == ClimbStep.Kind.CHECK;
        return new ClimbStep(
                kind,
                at,
                ID,
                "2026-05-17T09:10:00Z",
                check ? 1800 : 61.5,
                at * 144_000L * (check ? 900 : 60),
                buffer,
                rate,
                lostMs,
                buffer == null ? 0 : 2000 / buffer,
                0,
                carried,
                carried == null ? null : (Boolean) (lostMs == 0),
                List.of(missed),
                missed.length == 0 ? "Every margin was met." : "It missed " + String.join(", ", missed) + ".");
    }
}
