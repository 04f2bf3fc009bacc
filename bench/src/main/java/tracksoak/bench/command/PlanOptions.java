package tracksoak.bench.command;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tracksoak.bench.phase.Plan;
import tracksoak.report.record.PlanFacts;
import tracksoak.report.verdict.Units;

/** What to do, and for how long. */
final class PlanOptions {

    private static final double LONGEST_S = 24 * 3600;

    @Option(
            names = {"-p", "--plan"},
            paramLabel = "PLAN",
            converter = Choices.PlanName.class,
            completionCandidates = Choices.PlanName.class,
            description = {
                "line-check: record for 2 min, close, read back; nothing is obviously wrong then.",
                "sound-check: record for 5 min, fill until steady (1 h at most), record for 10 min, close, read back; the "
                        + "drive is trusted for the session then."
            })
    Choices.@Nullable PlanNames name;

    @Option(
            names = "--take",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            description =
                    "Length of the take (sound-check: of the one after the fill): 2min. Below the plan's own, the "
                            + "plan counts as shortened.")
    @Nullable
    Double takeS;

    @Option(
            names = "--take-before",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            description = "Sound-check: length of the take before the fill: 5min.")
    @Nullable
    Double takeBeforeS;

    @Option(
            names = "--fill-cap",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            description = "Sound-check: longest time the fill may take: 1h.")
    @Nullable
    Double fillCapS;

    /** The plan asked for. */
    Plan resolve() {
        Choices.PlanNames asked = name;
        if (asked == null) {
            throw Complaint.usage("no plan was given", "add --plan line-check or --plan sound-check");
        }
        bounded("--take", takeS, 1);
        bounded("--take-before", takeBeforeS, 1);
        bounded("--fill-cap", fillCapS, 1);
        if (asked == Choices.PlanNames.LINE_CHECK && (takeBeforeS != null || fillCapS != null)) {
            throw Complaint.usage(
                    "a line-check has only one take and no fill, so "
                            + (fillCapS != null ? "--fill-cap" : "--take-before") + " means nothing there",
                    "use --take, or --plan sound-check");
        }
        Plan plan = asked == Choices.PlanNames.LINE_CHECK ? Plan.lineCheck() : Plan.soundCheck();
        return plan.withDurations(takeBeforeS, fillCapS, takeS);
    }

    /** The plan of an earlier run, with what was given instead. */
    Plan resolveLike(PlanFacts last) {
        if (name == null) {
            for (Choices.PlanNames known : Choices.PlanNames.values()) {
                if (Words.of(known).equals(last.name())) {
                    name = known;
                }
            }
            if (name == null) {
                throw Complaint.usage(
                        "the last run had the plan " + Words.quoted(last.name()) + ", which cannot be repeated here",
                        "choose one with --plan");
            }
            takeS = takeS == null ? known(last.takeAfterS()) : takeS;
            takeBeforeS = takeBeforeS == null ? known(last.takeBeforeS()) : takeBeforeS;
            fillCapS = fillCapS == null ? known(last.fillCapS()) : fillCapS;
        }
        return resolve();
    }

    private static @Nullable Double known(double seconds) {
        return seconds > 0 ? seconds : null;
    }

    private static void bounded(String option, @Nullable Double seconds, double least) {
        if (seconds != null && (seconds < least || seconds > LONGEST_S)) {
            throw Complaint.usage(
                    option + " is " + Units.seconds(seconds) + "; allowed: " + Units.seconds(least) + " to "
                            + Units.seconds(LONGEST_S),
                    "choose a time in between");
        }
    }
}
