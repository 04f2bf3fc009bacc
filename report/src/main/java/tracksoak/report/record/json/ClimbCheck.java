package tracksoak.report.record.json;

import java.util.Objects;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.ClimbResult;
import tracksoak.report.record.facts.ClimbStep;
import tracksoak.report.record.facts.RecordException;

/** What every climb record must hold besides what every record must: bounds of the ladder, answers that agree. */
final class ClimbCheck {

    private static final int MOST_STEPS = 2_000;

    private ClimbCheck() {}

    /** Throws a {@link RecordException} that begins with {@code what} at the first thing that cannot be. */
    static void check(ClimbRecord record, String what) {
        RecordCheck check = RecordCheck.ofParts(record, what);
        check.head(record.schema(), ClimbRecord.SCHEMA, record.id(), record.startedAt(), record.endedAt());
        SessionCheck.check(record.session(), check::require);
        ClimbRecord.Ladder ladder = record.ladder();
        check.require(ladder.least() >= 1, "ladder.least", ladder.least(), "1 or more");
        check.require(ladder.most() >= ladder.least(), "ladder.most", ladder.most(), "the least or more");
        check.require(
                record.steps().size() <= MOST_STEPS, "steps", record.steps().size(), "at most " + MOST_STEPS);
        for (int i = 0; i < record.steps().size(); i++) {
            step("steps[" + i + "]", record.steps().get(i), ladder, check);
        }
        ClimbResult result = record.result();
        if (result != null) {
            edge("result.withMargin", result.withMargin(), ladder, check);
            if (result.beforeLoss() != null) {
                edge("result.beforeLoss", Objects.requireNonNull(result.beforeLoss()), ladder, check);
            }
        }
    }

    private static void step(String at, ClimbStep step, ClimbRecord.Ladder ladder, RecordCheck check) {
        check.instant(at + ".startedAt", step.startedAt());
        check.id(at + ".runId", step.runId());
        within(at + ".at", step.at(), ladder, check);
        check.require(
                !Boolean.TRUE.equals(step.carried()) || Boolean.TRUE.equals(step.kept()),
                at + ".kept",
                String.valueOf(step.kept()),
                "true where carried is true");
    }

    private static void edge(String at, ClimbResult.Edge edge, ClimbRecord.Ladder ladder, RecordCheck check) {
        boolean confirmed = edge.how() == ClimbResult.How.CONFIRMED;
        check.require(
                (edge.at() != null) == confirmed,
                at + ".at",
                String.valueOf(edge.at()),
                "a number exactly if confirmed");
        if (edge.at() != null) {
            within(at + ".at", edge.at(), ladder, check);
        }
    }

    private static void within(String at, int value, ClimbRecord.Ladder ladder, RecordCheck check) {
        check.require(
                value >= ladder.least() && value <= ladder.most(), at, value, ladder.least() + " to " + ladder.most());
    }
}
