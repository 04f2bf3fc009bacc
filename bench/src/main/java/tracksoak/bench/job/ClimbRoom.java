package tracksoak.bench.job;

import tracksoak.bench.climb.Ladder;
import tracksoak.bench.phase.run.Budget;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.DriveFacts;

/**
 * The part of a ladder that can be tried on a drive: a sound-check must fit on it, and a short take into half of its room,
 * so that enough is left for the fill.
 *
 * @param ladder what can be tried
 * @param because why not more, one sentence
 * @param reserveBytes room that stays free
 * @param takeBytes bytes of the largest short take
 * @param checkBytes most bytes of the largest sound-check
 * @param fillBytes most bytes of the fill
 */
public record ClimbRoom(
        Ladder ladder, String because, long reserveBytes, long takeBytes, long checkBytes, long fillBytes) {

    /**
     * The room on a drive.
     *
     * @param check the plan of the sound-checks
     * @param shortTakeS length of a short take in s
     */
    static ClimbRoom of(Ladder whole, DriveFacts drive, long reserve, Plan check, double shortTakeS) {
        Long cluster = drive.clusterBytes();
        int alignment = (int) Math.max(4096, cluster == null ? 0 : Math.min(cluster, 32 << 20));
        long free = drive.freeBytes() == null ? 0 : drive.freeBytes();
        Plan take = Plan.climbTake(shortTakeS);
        int rungs = 1;
        while (rungs < whole.size() && fits(whole.session(rungs + 1), check, take, alignment, free, reserve)) {
            rungs++;
        }
        Session top = whole.session(rungs);
        long takeBytes = Budget.of(top, take, alignment, free, reserve).takesBytes();
        return new ClimbRoom(
                whole.lowest(rungs),
                rungs < whole.size() ? "More would not fit beside the room that stays free." : "More was not tried.",
                reserve,
                takeBytes,
                Budget.of(top, check, alignment, free, reserve).mostBytes(),
                Math.max(0, free - reserve - takeBytes));
    }

    private static boolean fits(Session session, Plan check, Plan take, int alignment, long free, long reserve) {
        long room = free - reserve;
        return Budget.of(session, check, alignment, free, reserve).leastBytes() <= room
                && Budget.of(session, take, alignment, free, reserve).takesBytes() <= room / 2;
    }
}
