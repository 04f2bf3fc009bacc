package tracksoak.bench.job;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.run.RunExtras;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.history.Difference;
import tracksoak.report.history.DriveHistory;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.roster.store.RosterPlace;

/** What a repeated run needs besides a run: the earlier ones, what to do again, and what has changed. */
public final class Requalify {

    private final Rooms rooms;
    private final JobListener listener;

    public Requalify(Rooms rooms, JobListener listener) {
        this.rooms = rooms;
        this.listener = listener;
    }

    /**
     * The drive's earlier runs, of which there is at least one.
     *
     * @param tag what the crew calls the drive, null if nobody said
     * @param asked the only folder to look in, null for the records of this computer
     * @param roster the roster to look in as well, null for none
     * @throws Problem if there is none
     */
    public EarlierRuns earlier(
            DriveFacts drive, @Nullable String tag, @Nullable Path asked, @Nullable Supplier<RosterPlace> roster) {
        Path folder = asked != null ? asked : rooms.recordsFolder();
        if (asked != null && !Files.isDirectory(asked)) {
            throw Problem.askedWrong(
                    Inert.quoted(asked) + " is no folder", "name the folder the records lie in with --records");
        }
        EarlierRuns inFolder = EarlierRuns.of(drive, tag, folder, listener);
        EarlierRuns earlier = roster == null ? inFolder : RosterRuns.and(inFolder, drive, tag, roster.get(), listener);
        if (earlier.found().isEmpty()) {
            throw Problem.cannot(
                    "no earlier run of " + Inert.quoted(Drives.name(drive)) + " was found in " + Inert.quoted(folder)
                            + (roster != null ? " or in the roster" : "")
                            + " (" + Count.inDigits(earlier.looked(), "record") + " looked at, none of this drive"
                            + (earlier.passedOver().isEmpty() ? "" : ", besides what is passed over") + ")"
                            + earlier.passedOver().stream()
                                    .map(sentence -> ". " + Inert.whole(sentence))
                                    .collect(Collectors.joining()),
                    "make the first one: tracksoak qualify PATH --session NAME --plan sound-check; records kept elsewhere: "
                            + "--records FOLDER; a drive without a serial number: --tag as it was given then");
        }
        return earlier;
    }

    /**
     * The order of a repetition. Tells what is repeated, and what will keep the two from being compared.
     *
     * @param last the run that is repeated
     * @param fresh session and plan of the repetition
     * @param tag what the crew calls the drive, null for what it was called then
     * @param keepsakeBytes bytes to be left on the drive, 0 for none
     */
    public Order order(
            EarlierRuns earlier,
            RunRecord last,
            Order fresh,
            @Nullable String tag,
            long keepsakeBytes,
            DriveFacts drive) {
        earlier.told("").forEach(listener::note);
        listener.repeats(last, fresh.plan(), fresh.session());
        Order order = fresh.with(new RunExtras(tag != null ? tag : last.tag(), last.id(), keepsakeBytes, null));
        List<String> apart = Difference.foreseen(order.plan().facts(0), order.session(), drive, rooms.host(), last);
        if (!apart.isEmpty()) {
            listener.note("the last run can then not be compared, because there: " + String.join("; ", apart));
        }
        return order;
    }

    /** What has changed; the report says so, too, afterwards. */
    public DriveHistory history(EarlierRuns earlier, Qualify.Done done) {
        DriveHistory history = earlier.history(done.record(), listener);
        RunFiles.saveReport(done.files().report(), done.record(), history);
        return history;
    }
}
