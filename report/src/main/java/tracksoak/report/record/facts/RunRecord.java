package tracksoak.report.record.facts;

import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.RecordParts;

/**
 * The immutable record of one run: facts measured, then the verdict. Everything the judge and the page know comes from
 * here.
 *
 * @param schema {@code tracksoak/run-record/3}
 * @param id UUIDv7
 * @param tool name and version of the bench, for example {@code tracksoak 1.0.0}
 * @param startedAt ISO-8601 instant in UTC
 * @param endedAt ISO-8601 instant in UTC, null while the run goes on
 * @param state how far the run came
 * @param stateReason why the run did not complete, empty where it did
 * @param seed seed of the payload, printed so that a run can be repeated
 * @param session the session the run was made for
 * @param plan what was to be done
 * @param drive the drive under test
 * @param tag what the crew calls the drive, for example what is written on it; null if nobody said
 * @param host the computer
 * @param method how it was measured
 * @param ready how long the drive took to become usable, null unless the run waited for it
 * @param phases what was done, in order
 * @param verdict what the facts mean for the session; null only before the first judging
 */
public record RunRecord(
        String schema,
        String id,
        String tool,
        String startedAt,
        @Nullable String endedAt,
        RunState state,
        String stateReason,
        Seed seed,
        Session session,
        PlanFacts plan,
        DriveFacts drive,
        @Nullable String tag,
        HostFacts host,
        MethodFacts method,
        @Nullable ReadyFacts ready,
        List<PhaseFacts> phases,
        @Nullable Verdict verdict) {

    /** The schema written today. */
    public static final String SCHEMA = "tracksoak/run-record/3";

    public RunRecord {
        phases = List.copyOf(phases);
    }

    /** Its phases of these kinds, in order. */
    public Stream<PhaseFacts> phasesOf(PhaseKind... kinds) {
        return phases.stream().filter(phase -> List.of(kinds).contains(phase.kind()));
    }

    /** What its phases have of a part, in order; those without it are passed over. */
    public <T> Stream<T> each(Function<PhaseFacts, @Nullable T> part) {
        return phases.stream().map(part).flatMap(Stream::ofNullable);
    }

    /** The same facts with another verdict. */
    public RunRecord withVerdict(Verdict newVerdict) {
        return RecordParts.of(this).with("verdict", newVerdict).make();
    }

    /** The same run with other phases, not judged. */
    public RunRecord withPhases(List<PhaseFacts> newPhases) {
        return RecordParts.of(this)
                .with("phases", newPhases)
                .with("verdict", null)
                .make();
    }
}
