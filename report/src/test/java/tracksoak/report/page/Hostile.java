package tracksoak.report.page;

import java.util.List;
import tracksoak.profiles.Session;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Seed;
import tracksoak.report.record.facts.Verdict;

/** A record whose every text tries to break out, hide, reorder or flood. */
final class Hostile {

    static final String MARKUP = "</script></textarea></title><img src=x onerror=alert(1)><!-- \" ' --> <b>&amp;";
    static final String HIDDEN = "S\u202E410-\u2066\u0007\u001B[31m\u200B\r\n\t7\u0000\u0085\u2028\uFEFF";
    static final String LONG = "W".repeat(4_000);

    private Hostile() {}

    static RunRecord record() {
        Session like = Showcase.session();
        Session session = RunSketch.titled(like, MARKUP + HIDDEN, LONG, like.mix());
        RunRecord base = Showcase.record(
                "019cefa0-0000-7f55-8441-5a0000000051",
                RunState.BROKEN,
                MARKUP + HIDDEN,
                new PlanFacts(MARKUP, true, 10, 60, 10, 0, 1, null, false, 0, 0, 0, 0, ""),
                DriveFacts.builder()
                        .maker(MARKUP)
                        .model(HIDDEN)
                        .serial(LONG)
                        .sizeBytes(1L)
                        .bus(MARKUP)
                        .linkMbps(0.5)
                        .linkSuspect(true)
                        .node(MARKUP)
                        .mount("/media/" + LONG.substring(20))
                        .folder("/media/" + MARKUP)
                        .fileSystem(HIDDEN)
                        .checkByHand(List.of(MARKUP, HIDDEN, LONG))
                        .build(),
                List.of(
                        new TakeMaker(51, "2026-03-14T21:00:00Z", 0, 10, 30)
                                .fault(new Fault(Fault.Kind.GONE, 0.2, 0, MARKUP, HIDDEN))
                                .make(),
                        OtherPhases.fill(
                                52, 1, 3e6, 3e6, 1_000_000_000L, new Fault(Fault.Kind.HUNG, 1, 9, HIDDEN, MARKUP)),
                        OtherPhases.readBack(
                                new ReadBackFacts(
                                        3,
                                        0,
                                        0,
                                        0,
                                        0,
                                        0,
                                        1,
                                        2,
                                        ReadBackFacts.Origin.HOST_MEMORY,
                                        List.of(MARKUP, LONG)),
                                0,
                                null)),
                new Verdict(
                        Verdict.Outcome.NO_VERDICT,
                        MARKUP,
                        HIDDEN,
                        MARKUP,
                        List.of(new Criterion(MARKUP, HIDDEN, LONG, null, null, "", null, null, false, MARKUP)),
                        List.of(MARKUP, HIDDEN),
                        List.of(LONG)));
        return new RunRecord(
                base.schema(),
                base.id(),
                MARKUP,
                base.startedAt(),
                null,
                base.state(),
                base.stateReason(),
                new Seed(Long.MIN_VALUE),
                session,
                base.plan(),
                base.drive(),
                MARKUP,
                base.host(),
                base.method(),
                null,
                base.phases(),
                base.verdict());
    }

    /** The emptiest record there can be: nothing was done and nothing judged. */
    static RunRecord empty() {
        RunRecord full = record();
        return Showcase.record(
                full.id(),
                RunState.RUNNING,
                "",
                PlanFacts.of(PlanName.SOUND_CHECK, false, 300, 3600, 600, 1),
                Showcase.interrupted().drive(),
                List.of(),
                new Verdict(
                        Verdict.Outcome.NO_VERDICT,
                        "Nothing was measured.",
                        "Nothing.",
                        "rec-32",
                        List.of(),
                        List.of("The run ended before its first phase."),
                        List.of()));
    }

    /** A fill without its findings, and a take without series or times. */
    static RunRecord gaps() {
        PhaseFacts fill = OtherPhases.fill(53, 40, 9e6, 9e6, 1_000_000_000L, null);
        PhaseFacts bare = PhaseFacts.builder(fill.kind(), fill.startedAt())
                .seconds(fill.seconds())
                .bytes(fill.bytes())
                .operations(fill.operations())
                .series(fill.series())
                .build();
        RunRecord empty = empty();
        return new RunRecord(
                empty.schema(),
                empty.id(),
                empty.tool(),
                empty.startedAt(),
                null,
                RunState.RUNNING,
                "",
                new Seed(1),
                empty.session(),
                empty.plan(),
                empty.drive(),
                null,
                empty.host(),
                empty.method(),
                null,
                List.of(new TakeMaker(54, "2026-03-14T21:30:00Z", 1, 300, 30).make(), bare),
                empty.verdict());
    }
}
