package tracksoak.bench.command.qualify;

import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.RosterOption;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RosterEntry;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.RunRecord;

/** Whether a run is entered in a roster, and in which. */
final class RosterEntryOptions {

    @Option(names = "--no-roster", description = "Leave this run out of the roster, and ask it nothing.")
    boolean leftOut;

    @Option(
            names = "--enter-simulated",
            description = "Enter the run of a simulated drive too, for a roster to try out.")
    boolean simulatedToo;

    @Mixin
    RosterOption rosterOption = new RosterOption();

    /** What the roster would have against a drive's tag, one sentence each. */
    List<String> against(DriveFacts drive, @Nullable String tag, Rooms rooms, Console console) {
        return leftOut || tag == null || tag.isEmpty()
                ? List.of()
                : RosterEntry.ifTagged(drive, tag, () -> rosterOption.place(rooms, console));
    }

    /** Enters a judged record, if it is to be. */
    void enter(RunRecord record, boolean simulated, Qualification.Bench bench) {
        if (!leftOut && record.verdict() != null && (!simulated || simulatedToo)) {
            new RosterEntry(bench.rooms(), bench.listener())
                    .enter(record, () -> rosterOption.place(bench.rooms(), bench.console()));
        }
    }
}
