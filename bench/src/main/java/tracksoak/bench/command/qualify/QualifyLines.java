package tracksoak.bench.command.qualify;

import java.nio.file.Path;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.TerminalListener;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.roster.identity.DriveId;

/** The news of a qualification in lines. */
final class QualifyLines extends TerminalListener {

    private final String rosterTyped;

    /** @param rosterTyped the roster as it was named in the command line, for commands about it */
    QualifyLines(Console console, Runnable onHang, String rosterTyped) {
        super(console, onHang);
        this.rosterTyped = rosterTyped;
    }

    @Override
    public void waitsForDrive(@Nullable Path place) {
        say("waiting for a drive; plug it in now"
                + (place == null ? "" : " (it is to be mounted at " + Inert.quoted(place) + ")"));
    }

    @Override
    public void driveMounted(Path place) {
        say("a drive is mounted at " + Inert.quoted(place));
    }

    @Override
    public void repeats(RunRecord last, Plan plan, Session session) {
        say("repeats the run of " + last.startedAt() + ": " + plan.name().word() + " for " + session.name());
    }

    @Override
    public void keepsakeLeft(Path folder, long bytes, int files, long askedBytes) {
        say("keepsake: " + Units.bytes(bytes) + " in " + Count.inDigits(files, "file") + " left in "
                + Inert.quoted(folder) + (bytes < askedBytes ? " (the run wrote no more)" : "")
                + "; the next run reads them first");
    }

    @Override
    public void entered(String drive, String label) {
        say(
                DriveId.isLoose(drive)
                        ? "roster: entered, but the drive has no usable serial number; say which it is: tracksoak"
                                + " roster tag "
                                + drive + " TAG" + rosterTyped
                        : "roster: entered for " + label + "; tracksoak roster show " + label + rosterTyped);
    }

    @Override
    public void tagToSettle(String cost, UnaryOperator<String> todo) {
        say("roster: " + Inert.whole(cost));
        ("  → " + todo.apply(rosterTyped).replace("\n", "\n    ")).lines().forEach(this::say);
    }

    @Override
    public void notEntered(String why) {
        say("roster: not entered: " + why);
    }
}
