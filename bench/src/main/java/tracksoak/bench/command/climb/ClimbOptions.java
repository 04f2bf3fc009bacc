package tracksoak.bench.command.climb;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tracksoak.bench.climb.ClimbOrder;
import tracksoak.bench.climb.Ladder;
import tracksoak.bench.command.console.Amounts;
import tracksoak.bench.command.console.Choices;
import tracksoak.bench.job.ClimbTerms;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Problem;

/** What a climb looks for, and for how long. */
public final class ClimbOptions {

    static final int MOST_TRACKS = 1024;

    @Option(
            names = "--grow",
            paramLabel = "WHAT",
            converter = Choices.Grow.class,
            completionCandidates = Choices.Grow.class,
            description = "What grows from try to try: ${COMPLETION-CANDIDATES}. Without it: tracks.")
    Ladder.@Nullable Kind grow;

    @Option(names = "--most", paramLabel = "N", description = "Try no more tracks than this. Without it: 1024.")
    @Nullable
    Integer most;

    @Option(
            names = "--margin",
            paramLabel = "FACTOR",
            description = "Buffer and rate margin asked, instead of the session's, such as 2.")
    @Nullable
    Double margin;

    @Option(
            names = "--only-margin",
            description = "Do not also look for where audio is lost: saves takes and a sound-check.")
    boolean onlyMargin;

    @Option(
            names = "--prove-above",
            description = "Also show by a sound-check that the next more is too much; always done on simulated drives.")
    boolean proveAbove;

    @Option(
            names = "--short-take",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            description = "Length of one short take, usually 1min. Below that the climb counts as shortened.")
    @Nullable
    Double shortTakeS;

    @Option(
            names = "--take",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            description = "Sound-checks: length of the take after the fill, usually 10min.")
    @Nullable
    Double takeS;

    @Option(
            names = "--take-before",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            description = "Sound-checks: length of the take before the fill, usually 5min.")
    @Nullable
    Double takeBeforeS;

    @Option(
            names = "--fill-cap",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            description =
                    "Longest time a fill may take, usually 20min before the short takes, and in sound-checks what the"
                            + " bytes of the session take at the rate asked.")
    @Nullable
    Double fillCapS;

    Ladder.Kind grows() {
        Ladder.Kind asked = grow;
        return asked == null ? Ladder.Kind.TRACKS : asked;
    }

    int mostTracks() {
        Integer asked = most;
        if (asked == null) {
            return MOST_TRACKS;
        }
        if (grows() == Ladder.Kind.SAMPLE_RATE) {
            throw Problem.askedWrong(
                    "--most counts tracks, so it means nothing with --grow sample-rate", "leave one of them out");
        }
        if (asked < 1 || asked > MOST_TRACKS) {
            throw Problem.askedWrong("--most is " + asked + "; allowed: 1 to " + MOST_TRACKS, "choose one in between");
        }
        return asked;
    }

    private double shortTakeS() {
        Amounts.bounded("--short-take", shortTakeS, 1);
        return shortTakeS == null ? ClimbOrder.SHORT_TAKE_S : shortTakeS;
    }

    private double fillCapS() {
        Amounts.bounded("--fill-cap", fillCapS, 1);
        return fillCapS == null ? ClimbOrder.FILL_CAP_S : Math.min(fillCapS, ClimbOrder.FILL_CAP_S);
    }

    /** All that is looked for, and for how long. */
    ClimbTerms terms(Session base, Ladder ladder) {
        return new ClimbTerms(base, ladder, shortTakeS(), fillCapS(), check(base), !onlyMargin, proveAbove);
    }

    /** The plan of the sound-checks. */
    private Plan check(Session base) {
        Amounts.bounded("--take", takeS, 1);
        Amounts.bounded("--take-before", takeBeforeS, 1);
        Double idleS = takeS != null && takeS < Plan.USUAL_IDLE_S ? takeS : null;
        return Plan.soundCheck(base).withDurations(takeBeforeS, fillCapS, takeS).withIdle(idleS);
    }
}
