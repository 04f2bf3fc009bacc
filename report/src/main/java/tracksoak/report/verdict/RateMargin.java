package tracksoak.report.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.FillFacts.Ended;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/**
 * The smaller of mean rate ÷ demand (fill, behind its fast cache) and 1 ÷ busy fraction (takes). A window of the fill below
 * the need is a threat that the takes settle; so is a mean below it, but by a take of the session's whole length alone.
 */
final class RateMargin implements Rule {

    private static final String WHOLE = "a take as long as the session, at its pace, left it the time it needs.";

    @Override
    public Finding judge(JudgedRun run) {
        double need = run.session.margins().rate();
        FindingDraft draft = new FindingDraft(CriterionId.RATE_MARGIN, "at least " + Units.factor(need), need, "×");
        if (run.plays()) {
            return PlayingRate.judge(draft, run, need);
        }
        if (run.session.kind() == SessionKind.ARCHIVE) {
            return CopyRate.judge(draft, run, need);
        }
        PhaseFacts fill = run.fill;
        FillFacts found = fill == null ? null : fill.fill();
        draft.spoilt(run.slept(Stream.concat(run.takes.stream(), run.phases(PhaseKind.FILL))));
        double takes = run.takes.stream().mapToDouble(RateMargin::busy).max().stream()
                .map(RateMargin::inverse)
                .findFirst()
                .orElse(Double.POSITIVE_INFINITY);
        FlatRate flat = fill == null || found == null || answeredNothing(fill, found)
                ? null
                : FlatRate.of(fill, found, (double) run.demand.dataBytes());
        double floor = flat == null ? Double.POSITIVE_INFINITY : flat.bytesPerSecond() / run.bytesPerSecond();
        boolean carried = floor < need && OpenThreats.wholeLength(run);
        double have = carried ? takes : Math.min(takes, floor);
        if (run.takes.isEmpty() && found == null) {
            return draft.open("Not tested: the run neither took nor filled.");
        }
        Blame blame = run.takes.stream().map(take -> blame(take, run, need)).reduce(Blame.NOBODY, Blame::worse);
        if (fill != null && flat != null && !carried) {
            blame = blame.worse(Blame.of(
                    fill,
                    run,
                    floor < need,
                    ms -> flat.withoutHost(ms) / run.bytesPerSecond() < need,
                    floor / Blame.deviceShare(fill, run.ioMode()) < need));
        }
        draft.measured(Units.factor(have), Math.min(have, 1000)).margin(have);
        String words = words(run, found, flat, takes, floor)
                + (carried ? " Less than the " + Units.factor(need) + " asked flat out, but " + WHOLE : "");
        if (blame == Blame.NOBODY && run.record.plan().fillCapS() > 0) {
            String lacking = lacking(run, fill, found);
            if (lacking != null && !(run.record.plan().shortened() && capped(fill, found))) {
                String sentence = lacking + " So far: " + words;
                return cappedByDrive(run, fill, found) ? draft.openForGood(sentence) : draft.open(sentence);
            }
            if (lacking != null) {
                draft.note("The fill was shortened: " + lacking + " The rate margin is judged on what was written.");
            }
        }
        if (blame == Blame.NOBODY && run.carry.passes()) {
            String threat = OpenThreats.of(run, Threat.Kind.SLOW);
            if (threat != null) {
                return draft.open(threat + " So far: " + words);
            }
        }
        return draft.judged(blame, run.carry, run.takesDone(), words, slow(words, flat, takes, floor, need));
    }

    /** Of a phase at session rate, by how busy it kept the drive. */
    static Blame blame(PhaseFacts take, JudgedRun run, double need) {
        double wholeMs = take.seconds() > 0 ? take.seconds() * 1000 : Double.POSITIVE_INFINITY;
        double busy = busy(take);
        return Blame.of(
                take,
                run,
                inverse(busy) < need,
                ms -> inverse(Math.max(0, busy - (Blame.hostMs(take) + ms) / wholeMs)) < need,
                inverse(busy * Blame.deviceShare(take, run.ioMode())) < need);
    }

    /** Part of the take in which the drive was busy, 0…1; a call that a person did not wait for counts for neither. */
    static double busy(PhaseFacts take) {
        double outS = take.unansweredS();
        double restS = take.seconds() - outS;
        return outS <= 0
                ? take.busyFraction()
                : restS <= 0 ? 0 : Math.max(0, (take.busyFraction() * take.seconds() - outS) / restS);
    }

    /** Whether a fill that was stopped waiting shows too little before that for any rate. */
    private static boolean answeredNothing(PhaseFacts fill, FillFacts found) {
        return fill.unansweredS() > 0 && fill.seconds() - fill.unansweredS() < found.floorWindowS();
    }

    /** Why the fill does not show enough for a PASS, null if it does. */
    private static @Nullable String lacking(JudgedRun run, @Nullable PhaseFacts fill, @Nullable FillFacts found) {
        if (fill == null || found == null || found.ended() == Ended.CUT_SHORT || !fill.complete()) {
            return "The fill was not finished: run again to the end.";
        }
        boolean longEnough = fill.bytes() >= run.demand.dataBytes();
        boolean sameLength = run.demand.dataBytes()
                <= run.record.session().bytesPerSecond() * run.record.session().lengthS();
        boolean enough = switch (found.ended()) {
            case FULL, COPIED -> true;
            case STEADY, ENOUGH -> longEnough || sameLength;
            case BELOW_NEED -> OpenThreats.wholeLength(run);
            case CAP -> fill.bytes() >= run.demand.dataBytes() || OpenThreats.wholeLength(run);
            case CUT_SHORT -> false;
        };
        return enough
                ? null
                : "The fill stopped after " + Units.bytes(fill.bytes())
                        + ", before the drive was steady for as much as the session writes: raise the cap of the fill.";
    }

    /**
     * Whether the fill came to its cap by the drive's own pace, as it would again. With the host late for more than is
     * overlooked, or for as long as the bytes that lack take, another fill may come further.
     */
    private static boolean cappedByDrive(JudgedRun run, @Nullable PhaseFacts fill, @Nullable FillFacts found) {
        if (fill == null || found == null || found.ended() != Ended.CAP || !fill.complete() || fill.seconds() <= 0) {
            return false;
        }
        double share = Doubts.hostShare(fill);
        return !Blame.slept(fill.hostDelays())
                && share <= Doubts.MOST_HOST
                && fill.bytes() / (1 - share) < run.demand.dataBytes();
    }

    private static boolean capped(@Nullable PhaseFacts fill, @Nullable FillFacts found) {
        return fill != null && fill.complete() && found != null && found.ended() != Ended.CUT_SHORT;
    }

    private static String words(
            JudgedRun run, @Nullable FillFacts found, @Nullable FlatRate flat, double takes, double floor) {
        StringBuilder words = new StringBuilder();
        if (found != null && flat != null) {
            words.append("Filled flat out, the drive wrote ")
                    .append(Units.rate(flat.bytesPerSecond()))
                    .append(flat.behindCliff() ? " on average behind its fast cache" : " on average")
                    .append(flat.part() ? " over as much as the session writes, " : ", ")
                    .append(Units.factor(floor))
                    .append(" what the session needs, and ")
                    .append(Units.rate(found.floorBytesPerSecond()))
                    .append(" in its slowest ")
                    .append(Units.seconds(found.floorWindowS()));
        } else {
            words.append("The drive was not filled");
        }
        if (!run.takes.isEmpty()) {
            words.append("; during the takes it was busy ")
                    .append(Units.percent(takes > 0 ? 1 / takes : 1))
                    .append(" of the time, a margin of ")
                    .append(Units.factor(takes));
        }
        return words.append('.').toString();
    }

    /** Only what is below the need, as that is what there is to act on. */
    private static String slow(String words, @Nullable FlatRate flat, double takes, double floor, double need) {
        List<String> slow = new ArrayList<>();
        if (flat != null && floor < need) {
            slow.add("filled flat out, the drive wrote no more than " + Units.rate(flat.bytesPerSecond())
                    + (flat.behindCliff() ? " on average once its fast cache was full, " : " on average, ")
                    + Units.factor(floor) + " what the session needs");
        }
        if (takes < need) {
            slow.add((slow.isEmpty() ? "during the takes the drive" : "during the takes it") + " was busy "
                    + Units.percent(takes > 0 ? 1 / takes : 1) + " of the time, a margin of " + Units.factor(takes));
        }
        String all = slow.isEmpty() ? words : String.join("; ", slow) + ".";
        return Count.capital(all) + " At least " + Units.factor(need) + " is needed.";
    }

    static double inverse(double busy) {
        return busy <= 0 ? Double.POSITIVE_INFINITY : 1 / busy;
    }
}
