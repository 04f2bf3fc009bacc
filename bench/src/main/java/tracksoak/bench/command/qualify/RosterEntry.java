package tracksoak.bench.command.qualify;

import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.roster.RosterOption;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.identity.DriveId;

/** A run enters its judged record in the roster. Whatever goes wrong with that is said in a line and changes nothing else. */
final class RosterEntry {

    @Option(names = "--no-roster", description = "Leave this run out of the roster, and ask it nothing.")
    boolean leftOut;

    @Option(
            names = "--enter-simulated",
            description = "Enter the run of a simulated drive too, for a roster to try out.")
    boolean simulatedToo;

    @Mixin
    RosterOption rosterOption = new RosterOption();

    /** Enters a record, signed with the tester's key. */
    void enter(RunRecord record, boolean simulated, Rooms rooms, Console console) {
        if (leftOut || record.verdict() == null || (simulated && !simulatedToo)) {
            return;
        }
        try (Roster roster = rosterOption.open(rooms, console)) {
            TesterKey key = RosterOption.key(rooms);
            RosterEvent event = roster.desk(key).enter(SignedRecord.sign(record, key), null);
            String id = String.valueOf(event.drive());
            String label = roster.drive(id, null).label();
            console.say(Inert.whole(
                    DriveId.isLoose(id)
                            ? "roster: entered, but the drive has no usable serial number; say which it is: tracksoak roster tag "
                                    + id + " TAG"
                            : "roster: entered for " + label + "; tracksoak roster show " + label));
        } catch (Problem | RecordException wrong) {
            console.say(Inert.whole("roster: not entered: " + wrong.getMessage()));
        } catch (RuntimeException | LinkageError wrong) {
            console.say(Inert.whole("roster: not entered: " + wrong));
        }
    }
}
