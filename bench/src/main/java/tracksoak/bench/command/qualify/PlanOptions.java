package tracksoak.bench.command.qualify;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Amounts;
import tracksoak.bench.command.console.Choices;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.KebabCase;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.PlanName;

/** What to do, and for how long. */
public final class PlanOptions {

    @Option(
            names = {"-p", "--plan"},
            paramLabel = "PLAN",
            converter = Choices.Plans.class,
            completionCandidates = Choices.Plans.class,
            description = {
                "line-check takes minutes, sound-check an hour or so, full-show hours. ",
                "line-check: record for 2 min, close, read back; nothing is obviously wrong then.",
                "sound-check: record for 5 min, fill with what the session writes, read it back, delete it, record for"
                        + " 10 min or for as long as it takes to settle what was seen, close, read back; the drive is"
                        + " cleared for the session then.",
                "full-show: fill all that is free, read it back, delete it, record for as long as the session lasts, "
                        + "close, read back; its room is proven then, too. Takes hours.",
                "For a playback or a mixdown the tracks are copied on and played instead; for an archive the show is "
                        + "copied on."
            })
    @Nullable
    PlanName name;

    @ArgGroup(validate = false, heading = "%nLengths for this run instead of the plan's:%n")
    Lengths lengths = new Lengths();

    /** Kept together, for a help of one screen leaves them out. */
    static final class Lengths {

        @Option(
                names = "--take",
                paramLabel = "TIME",
                converter = Amounts.Duration.class,
                description = "Length of the take, usually 2min. In a sound-check of the one after the fill, which then"
                        + " keeps to it. Below the plan's own, the plan counts as shortened.")
        @Nullable
        Double takeS;

        @Option(
                names = "--take-before",
                paramLabel = "TIME",
                converter = Amounts.Duration.class,
                description = "Sound-check: length of the take before the fill, usually 5min.")
        @Nullable
        Double takeBeforeS;

        @Option(
                names = "--fill-cap",
                paramLabel = "TIME",
                converter = Amounts.Duration.class,
                description =
                        "Sound-check and full-show: longest time the fill may take, such as 1h. A sound-check's own is"
                                + " what the bytes of the session take at the rate asked.")
        @Nullable
        Double fillCapS;

        @Option(
                names = "--playback",
                paramLabel = "TIME",
                converter = Amounts.Duration.class,
                description =
                        "Length of the playback, such as 2min. A recording is played only if this is given, from the"
                                + " files of its take.")
        @Nullable
        Double playbackS;

        @Option(
                names = "--idle",
                paramLabel = "TIME",
                converter = Amounts.Duration.class,
                description =
                        "How long the drive is left alone before each take, usually 1min, or 1min50s and 10s in a"
                                + " sound-check. One that sleeps is met asleep then. Below the plan's own, the plan counts as shortened.")
        @Nullable
        Double idleS;
    }

    /** The plan asked for, as it suits the session. */
    Plan resolve(Session session) {
        PlanName asked = name;
        if (asked == null) {
            throw Problem.askedWrong(
                    "no plan was given", "add --plan line-check, --plan sound-check or --plan full-show");
        }
        Amounts.bounded("--take", lengths.takeS, 1);
        Amounts.bounded("--take-before", lengths.takeBeforeS, 1);
        Amounts.bounded("--fill-cap", lengths.fillCapS, 1);
        Amounts.bounded("--playback", lengths.playbackS, 1);
        Amounts.bounded("--idle", lengths.idleS, 0);
        refuseWhatMeansNothing(asked, session.kind());
        Plan plan = switch (asked) {
            case LINE_CHECK -> Plan.lineCheck();
            case SOUND_CHECK -> Plan.soundCheck(session);
            case FULL_SHOW -> Plan.fullShow(session);
            case CLIMB_FILL, CLIMB_TAKE -> throw new IllegalStateException("nobody can ask for " + asked);
        };
        return switch (session.kind()) {
            case RECORDING -> recording(plan);
            case PLAYBACK, MIXDOWN ->
                plan.withDurations(null, lengths.fillCapS, lengths.playbackS).fitting(session);
            case ARCHIVE ->
                plan.withDurations(null, lengths.fillCapS, lengths.takeS).fitting(session);
        };
    }

    private Plan recording(Plan plan) {
        Plan taken = plan.withDurations(lengths.takeBeforeS, lengths.fillCapS, lengths.takeS)
                .withIdle(lengths.idleS);
        Double playback = lengths.playbackS;
        if (playback == null) {
            return taken;
        }
        if (playback > taken.takeAfterS()) {
            throw Problem.askedWrong(
                    "--playback is " + Units.seconds(playback) + ", longer than the take of "
                            + Units.seconds(taken.takeAfterS()) + " that it plays",
                    "give --take at least as much");
        }
        return taken.but().playback(playback).plan();
    }

    private void refuseWhatMeansNothing(PlanName asked, SessionKind kind) {
        boolean records = kind == SessionKind.RECORDING;
        boolean plays = kind == SessionKind.PLAYBACK || kind == SessionKind.MIXDOWN;
        String about = records ? "" : " of " + (kind == SessionKind.ARCHIVE ? "an " : "a ") + KebabCase.of(kind);
        if (lengths.takeBeforeS != null && (!records || asked != PlanName.SOUND_CHECK)) {
            throw meaningless("--take-before", "a " + asked.word() + about + " has no take before a fill");
        }
        if (lengths.fillCapS != null && (asked == PlanName.LINE_CHECK || (plays && asked != PlanName.FULL_SHOW))) {
            throw meaningless("--fill-cap", "a " + asked.word() + about + " has no fill");
        }
        if (lengths.takeS != null && !(records || (kind == SessionKind.ARCHIVE && asked == PlanName.LINE_CHECK))) {
            throw meaningless("--take", "a " + asked.word() + about + " has no take");
        }
        if (lengths.idleS != null && !records) {
            throw meaningless("--idle", "a " + asked.word() + about + " has no take");
        }
        if (lengths.playbackS != null && kind == SessionKind.ARCHIVE) {
            throw meaningless("--playback", "an archive is not played from");
        }
    }

    private static Problem meaningless(String option, String why) {
        return Problem.askedWrong(why + ", so " + option + " means nothing there", "leave " + option + " out");
    }

    /**
     * The plan of an earlier run, with what was given instead. For a session of another kind only the plan's name is
     * repeated, as its times would mean something else there.
     */
    Plan resolveLike(PlanFacts last, Session lastSession, Session session) {
        if (name == null) {
            name = PlanName.of(last.name())
                    .filter(PlanName.ASKED::contains)
                    .orElseThrow(() -> Problem.askedWrong(
                            "the last run had the plan " + Inert.quoted(last.name())
                                    + ", which cannot be repeated here",
                            "choose one with --plan"));
            if (session.kind() == lastSession.kind()) {
                take(last, lastSession);
            }
        }
        return resolve(session);
    }

    /** Takes over the times that were not given; what lasted as long as the session does so again. */
    private void take(PlanFacts last, Session lastSession) {
        boolean whole = last.wholeSpace();
        switch (lastSession.kind()) {
            case RECORDING -> {
                boolean usual = last.is(PlanName.SOUND_CHECK) && last.takeAfterS() == Plan.USUAL_TAKE_S;
                lengths.takeBeforeS = or(lengths.takeBeforeS, last.takeBeforeS());
                lengths.takeS = or(
                        lengths.takeS,
                        usual || (whole && last.takeAfterS() == lastSession.lengthS()) ? 0 : last.takeAfterS());
                lengths.playbackS = or(lengths.playbackS, last.playbackS());
                lengths.fillCapS = or(lengths.fillCapS, usual && !last.shortened() ? 0 : last.fillCapS());
                // sound-checks once left a drive alone for 1 min before each take
                boolean ownRest = usual && !last.shortened() && last.idleS() <= Plan.USUAL_IDLE_S;
                lengths.idleS = lengths.idleS != null || ownRest ? lengths.idleS : Double.valueOf(last.idleS());
            }
            case PLAYBACK, MIXDOWN -> {
                lengths.playbackS = or(
                        lengths.playbackS, whole && last.playbackS() == lastSession.lengthS() ? 0 : last.playbackS());
                lengths.fillCapS = or(lengths.fillCapS, last.fillCapS());
            }
            case ARCHIVE -> {
                // how long the copy may last was given as that of the fill or, where there is none, of the take
                boolean checked = last.is(PlanName.LINE_CHECK);
                lengths.takeS = or(lengths.takeS, checked ? last.copyCapS() : 0);
                lengths.fillCapS = or(lengths.fillCapS, checked ? 0 : whole ? last.fillCapS() : last.copyCapS());
            }
        }
    }

    private static @Nullable Double or(@Nullable Double given, double then) {
        return given != null ? given : then > 0 ? Double.valueOf(then) : null;
    }
}
