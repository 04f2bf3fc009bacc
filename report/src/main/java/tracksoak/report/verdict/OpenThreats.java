package tracksoak.report.verdict;

import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.PlanName;

/** Whether what a fill threatened was settled by a take after it, in words. */
final class OpenThreats {

    /** A take that ends within its last second is as long as the session. */
    private static final double SLACK_S = 1;

    /** Chunks that were not complete when a take ended are not in its bytes. */
    private static final double NEARLY = 0.99;

    private OpenThreats() {}

    /**
     * What the longest take after the fill leaves open of these kinds, as a sentence; null if it settles all of them. A look of
     * a climb leaves nothing open by it: the sound-check that confirms its answer settles that.
     */
    static @Nullable String of(JudgedRun run, Threat.Kind... kinds) {
        if (PlanName.of(run.record.plan().name()).map(PlanName::ofClimb).orElse(false)) {
            return null;
        }
        return threats(run).stream()
                .filter(threat -> List.of(kinds).contains(threat.kind()) && !settled(run, threat))
                .findFirst()
                .map(threat -> words(threat)
                        + " Whether it does so at the session's pace is not settled: the take after the fill was "
                        + Units.seconds(
                                takeAfter(run) == null
                                        ? 0
                                        : Objects.requireNonNull(takeAfter(run)).seconds())
                        + " long, and one of " + Units.seconds(threat.settledAfterS(run.session)) + " would tell."
                        + chance(run, threat))
                .orElse(null);
    }

    /** What was settled of these kinds and did no harm, for the reader; empty if there was no such thing. */
    static String settled(JudgedRun run, Threat.Kind... kinds) {
        PhaseFacts take = takeAfter(run);
        List<String> words = threats(run).stream()
                .filter(threat -> List.of(kinds).contains(threat.kind()) && settled(run, threat))
                .map(OpenThreats::words)
                .toList();
        return words.isEmpty() || take == null || !unharmed(run.session, take)
                ? ""
                : String.join(" ", words) + " In the take of " + Units.seconds(take.seconds())
                        + " after it, at the session's pace, it did no harm.";
    }

    /** The longest pause met flat out and settled, as a sentence behind others; empty if there was none. */
    static String settledInShort(JudgedRun run) {
        return takeAfter(run) == null
                ? ""
                : threats(run).stream()
                        .filter(threat -> threat.kind() == Threat.Kind.PAUSE || threat.kind() == Threat.Kind.FALTER)
                        .max(Comparator.comparingDouble(Threat::worst))
                        .map(threat -> " Flat out it " + (threat.kind() == Threat.Kind.PAUSE ? "paused" : "faltered")
                                + " for up to " + Units.ms(threat.worst())
                                + ", which did no harm at the session's pace.")
                        .orElse("");
    }

    private static List<Threat> threats(JudgedRun run) {
        return Threats.of(run.session, run.record.phases());
    }

    /** Whether the take after the fill was as long as the session. */
    static boolean wholeLength(JudgedRun run) {
        PhaseFacts take = takeAfter(run);
        return take != null && take.seconds() >= run.session.lengthS() - SLACK_S;
    }

    private static boolean settled(JudgedRun run, Threat threat) {
        PhaseFacts take = takeAfter(run);
        return take != null
                && take.seconds() >= threat.unlikelyAfterS() - SLACK_S
                && ((wholeLength(run) && take.bytes() >= NEARLY * threat.awaitedBytes())
                        || (take.bytes() >= NEARLY * Threat.TIMES * threat.gapBytes()
                                && take.seconds() >= Threat.TIMES * threat.gapS() - SLACK_S));
    }

    /** What is to be feared of a threat that was luck not to meet, as a sentence behind others; empty if there is none. */
    private static String chance(JudgedRun run, Threat threat) {
        PhaseFacts take = takeAfter(run);
        double seconds = take == null ? 0 : take.seconds();
        return seconds >= threat.unlikelyAfterS() - SLACK_S
                ? ""
                : (threat.costly() == 1
                                ? " One is longer than the buffer holds: if it comes by chance, "
                                : " " + threat.costly() + " are longer than the buffer holds: if they come by chance, ")
                        + OddsWords.about(threat.chance(run.session, seconds)) + " of shows would lose audio.";
    }

    /** Whether a take met all that a drive's slowness could make it miss. */
    private static boolean unharmed(Session session, PhaseFacts take) {
        return take.lostMs() <= 0
                && take.peakBacklogMs() * session.margins().buffer() <= session.bufferS() * 1000
                && take.busyFraction() * session.margins().rate() <= 1
                && take.stalls().stream()
                        .allMatch(stall -> stall.ms() <= session.margins().longestStallMs());
    }

    private static @Nullable PhaseFacts takeAfter(JudgedRun run) {
        PhaseFacts found = null;
        boolean filled = false;
        for (PhaseFacts phase : run.record.phases()) {
            filled |= phase.kind() == PhaseKind.FILL;
            if (filled && phase.kind() == PhaseKind.TAKE) {
                found = phase;
            }
        }
        return found;
    }

    private static String words(Threat threat) {
        String often = threat.seen() == 1 ? "once" : threat.seen() + " times";
        return switch (threat.kind()) {
            case PAUSE ->
                "While it was filled flat out the drive paused " + often + ", for up to " + Units.ms(threat.worst())
                        + ".";
            case FALTER ->
                "While it was filled flat out the drive faltered " + often
                        + ": long writes in a row, in which it took next to nothing for about "
                        + Units.ms(threat.worst())
                        + (threat.seen() == 1 ? "." : " at most.");
            case SLOW ->
                "While it was filled flat out the drive slowed down " + often + ", to " + Units.rate(threat.worst())
                        + (threat.seen() == 1 ? "" : " at the least") + ", which may be too little for the session.";
            case READ_PAUSE ->
                "While it was read back the drive paused " + often + ", for up to " + Units.ms(threat.worst()) + ".";
        };
    }
}
