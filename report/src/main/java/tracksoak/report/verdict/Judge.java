package tracksoak.report.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Verdict;

/**
 * Says what the facts of a run mean for a session. A pure function: the same session and facts give the same verdict, and
 * the verdict already in the record plays no part. The session may be another than the run was made for; what the facts
 * do not allow to be judged then is "not tested". Any thread.
 *
 * <p>FAIL if a criterion is missed; NO_VERDICT if one that matters could not be settled, or something outside the drive
 * could have decided one; else PASS.
 */
public final class Judge {

    private static final String READS_ONLY = "this session writes nothing while it runs.";
    private static final String WAITS = "a copy waits for the drive, so nothing is lost and nothing falls behind.";
    private static final String ONE_BY_ONE = "files are closed one after another while the show is copied.";

    private static final List<Rule> RULES = List.of(
            new ForKinds(new LostAudio(), Map.of(SessionKind.PLAYBACK, READS_ONLY, SessionKind.ARCHIVE, WAITS)),
            new ForKinds(new BufferMargin(), Map.of(SessionKind.PLAYBACK, READS_ONLY, SessionKind.ARCHIVE, WAITS)),
            new RateMargin(),
            new ForKinds(new LongestStall(), Map.of(SessionKind.ARCHIVE, WAITS)),
            new ForKinds(new CloseTime(), Map.of(SessionKind.PLAYBACK, READS_ONLY, SessionKind.ARCHIVE, ONE_BY_ONE)),
            new Intact(),
            new FreeRoom(),
            new Format(),
            new Port(),
            new ForKinds(new Playback(), Map.of(SessionKind.ARCHIVE, "an archive is not played from.")));

    /** What no neighbour changes, beside {@link #gaveOut}. */
    private static final Set<CriterionId> NO_NEIGHBOURS =
            Set.of(CriterionId.ROOM, CriterionId.FORMAT, CriterionId.PORT);

    private Judge() {}

    /** Judges a run for the session it was made for. */
    public static Verdict judge(RunRecord facts) {
        return judge(facts.session(), facts);
    }

    /**
     * Judges a run for a session.
     *
     * @param session the session asked about; the one in the record or another
     * @param facts a run as it was recorded, also one that is still going on
     */
    public static Verdict judge(Session session, RunRecord facts) {
        JudgedRun run = new JudgedRun(session, facts);
        List<Finding> findings = findings(run);
        List<Criterion> criteria = findings.stream().map(Finding::criterion).toList();
        List<String> notes = new ArrayList<>(Notes.of(run));
        findings.forEach(finding -> notes.addAll(finding.notes()));
        List<Criterion> missed = findings.stream()
                .filter(Finding::missed)
                .map(Finding::criterion)
                .toList();
        String scope = Scope.of(run);
        if (!missed.isEmpty()) {
            return new Verdict(
                    Verdict.Outcome.FAIL,
                    Headline.fail(run, missed),
                    scope,
                    session.name(),
                    criteria,
                    List.of(),
                    notes);
        }
        List<String> reasons = new ArrayList<>(Doubts.of(run));
        // that a run did not come to its end is said once; each criterion says what it still lacks
        boolean ended = facts.state() == RunState.COMPLETE;
        findings.stream()
                .filter(finding -> finding.open() && finding.withholds() && (ended || finding.otherwise()))
                .forEach(finding -> reasons.add(finding.criterion().sentence()));
        if (reasons.isEmpty()) {
            Optional.ofNullable(ShowOdds.against(run)).ifPresent(reasons::add);
        }
        if (!reasons.isEmpty()) {
            return new Verdict(
                    Verdict.Outcome.NO_VERDICT,
                    Headline.none(run, reasons),
                    scope,
                    session.name(),
                    criteria,
                    reasons,
                    notes);
        }
        return new Verdict(
                Verdict.Outcome.PASS, Headline.pass(run, criteria), scope, session.name(), criteria, List.of(), notes);
    }

    /**
     * Why asking again would be in vain: what a run left open that another one of the same session and plan, on the same
     * drive and computer, is bound to leave open too. A fill that the drive's pace brings to its cap will be capped again;
     * a late or sleeping computer, another program and a clock that jumped can pass.
     *
     * @param facts a run as it was recorded
     * @param passedOver criteria that do not matter
     * @return one sentence each; empty if the run missed a criterion, or left one open for a reason that can pass, or did
     *     not come to its end
     */
    public static List<String> lasting(RunRecord facts, Set<CriterionId> passedOver) {
        List<Finding> counted = findings(new JudgedRun(facts.session(), facts)).stream()
                .filter(finding -> passedOver.stream().noneMatch(finding.criterion()::is))
                .toList();
        boolean mayPass = counted.stream()
                .anyMatch(finding -> finding.missed() || (finding.open() && finding.withholds() && !finding.lasting()));
        if (mayPass || facts.state() != RunState.COMPLETE) {
            return List.of();
        }
        return counted.stream()
                .filter(Finding::lasting)
                .map(finding -> finding.criterion().sentence())
                .toList();
    }

    /** Whether the computer was late for more of a phase than a PASS allows, or slept: its times are not the drive's alone. */
    public static boolean spoilt(PhaseFacts phase) {
        return Blame.slept(phase.hostDelays()) || Doubts.overloaded(phase);
    }

    /** Whether a run came to no verdict while other drives on the drive's bus moved data: asked again alone it may come to one. */
    public static boolean disturbed(RunRecord run) {
        Verdict verdict = run.verdict();
        return verdict != null
                && verdict.outcome() == Verdict.Outcome.NO_VERDICT
                && Blame.neighbourBytes(new JudgedRun(run.session(), run)) > 0;
    }

    /**
     * Whether a run went wrong by what no other drive decided: by what none can cause, or by what it missed while none on its bus
     * moved data.
     */
    public static boolean failedAlone(RunRecord run) {
        Verdict verdict = judge(run);
        if (verdict.outcome() == Verdict.Outcome.PASS || gaveOut(run, verdict)) {
            return verdict.outcome() != Verdict.Outcome.PASS;
        }
        RunRecord alone =
                run.withPhases(run.phases().stream().filter(Blame::alone).toList());
        return verdict.criteria().stream()
                        .anyMatch(one -> one.missed() && NO_NEIGHBOURS.stream().anyMatch(one::is))
                || (verdict.outcome() == Verdict.Outcome.FAIL && judge(alone).outcome() == Verdict.Outcome.FAIL);
    }

    /**
     * Whether data came back wrong, or the drive stopped: nothing else in the computer makes a sound drive do that.
     *
     * @param verdict of that run
     */
    public static boolean gaveOut(RunRecord run, Verdict verdict) {
        return verdict.criteria().stream().anyMatch(one -> one.is(CriterionId.INTACT) && one.missed())
                || run.each(PhaseFacts::fault).anyMatch(fault -> fault.kind().ofTheDrive());
    }

    private static List<Finding> findings(JudgedRun run) {
        return RULES.stream().map(rule -> rule.judge(run)).toList();
    }
}
