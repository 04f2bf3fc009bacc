package tracksoak.report.roster;

import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.exchange.Sync;
import tracksoak.report.roster.exchange.Tally;

/**
 * Brings a whole roster into another place, of whichever kind, and then reads both from end to end to see that all of it arrived. The roster it comes from stays as it is;
 * what the other place held before stays as well. May be interrupted and done again. Stateless.
 */
public final class RosterMove {

    /**
     * What came of it.
     *
     * @param receipt what was taken there; {@code known} counts only what came twice
     * @param from what the first roster holds
     * @param to the same events as the other place holds them now
     * @param allThere events there in all, those of others included
     */
    public record Result(Receipt receipt, Tally from, Tally to, long allThere) {

        /** Whether every event and every record arrived as it was signed. */
        public boolean whole() {
            return from.whole() && from.equals(to);
        }
    }

    private RosterMove() {}

    /**
     * Moves.
     *
     * @throws Problem if one side stops answering; what was handed over by then stays there
     */
    public static Result run(Roster from, Roster to, Sync.Progress progress) {
        Receipt receipt = Sync.handOver(from.peer(), to.peer(), progress);
        Tally here = Tally.of(from.peer());
        Tally there = Tally.within(from.peer(), to.peer());
        return new Result(receipt, here, there, to.events());
    }
}
