package tracksoak.bench.command.drives;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.HelpOption;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.JsonText;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.drive.folder.LeftOver;
import tracksoak.bench.drive.folder.RunLock;
import tracksoak.bench.job.Preflight;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RunFiles;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.profiles.base.Units;

/** Deletes what runs that were cut short left on a drive. */
@Command(
        name = "clear",
        header = "Delete what a run that was cut short left on a drive.",
        description = {
            "Without --yes it only lists what it would delete. It deletes only folders a run made, and leaves one alone if "
                    + "anything else lies in it. A keepsake stays unless it is named, and is only mentioned."
        },
        sortOptions = false)
public final class ClearCommand implements Callable<Integer> {

    @Parameters(paramLabel = "PATH", description = "The folder that was given to tracksoak qualify.")
    Path path = Path.of("");

    @Option(
            names = "--keepsake",
            paramLabel = "NAME",
            description = "Instead of left-overs: the folder with this name that a run left on purpose "
                    + "(TRACKSOAK-KEEPSAKE-...), and this computer's list of it.")
    @Nullable
    String keepsake;

    @Option(names = "--yes", description = "Really delete.")
    boolean yes;

    @Mixin
    JsonOption json = new JsonOption();

    @Mixin
    HelpOption help = new HelpOption();

    private final Console console;
    private final Rooms rooms;

    public ClearCommand(Console console, Rooms rooms) {
        this.console = console;
        this.rooms = rooms;
    }

    @Override
    public Integer call() {
        FoundDrive drive = DrivesCommand.find(rooms, path);
        if (!Files.isDirectory(path)) {
            throw Problem.askedWrong(
                    Inert.quoted(path) + " is no folder", "give the folder that was given to tracksoak qualify");
        }
        String named = keepsake;
        if (named != null) {
            return new ClearKeepsake(console, rooms, path, drive, yes, json.asked).clear(named);
        }
        List<LeftOver> left = Preflight.leftOvers(path);
        KeepsakesLeft keepsakes = new KeepsakesLeft(path, rooms, SystemClocks.EPOCH);
        List<Map<String, Object>> entries = new ArrayList<>();
        int kept = 0;
        if (yes && !left.isEmpty()) {
            try (RunLock lock = RunLock.take(rooms.stateFolder(), drive.lockKey(), "clear")) {
                for (LeftOver one : left) {
                    kept += clear(one, lock, entries) ? 0 : 1;
                }
            } catch (IOException refused) {
                throw Problem.cannot(
                        "the drive cannot be locked (" + RunFiles.reason(refused) + ")",
                        "wait until the run on it ends");
            }
        } else {
            left.forEach(one -> show(one, bytes(one), false, entries));
        }
        if (json.asked) {
            Map<String, Object> document = JsonOption.document("clear/1");
            document.put("path", path.toString());
            document.put("folders", entries);
            document.put("keepsakes", keepsakes.json());
            console.out().println(JsonText.of(document));
        } else if (left.isEmpty()) {
            console.out()
                    .println("Nothing of an earlier run lies in " + Inert.quoted(path)
                            + (keepsakes.none() ? "." : " but what it left on purpose."));
        }
        keepsakes.sentences().forEach(sentence -> console.say("note: " + Inert.whole(sentence)));
        if (!yes && !left.isEmpty()) {
            console.complain("nothing was deleted", "add --yes to delete what is listed");
            return Exit.USAGE;
        }
        return kept == 0 ? Exit.DONE : Exit.COULD_NOT_RUN;
    }

    private boolean clear(LeftOver one, RunLock lock, List<Map<String, Object>> entries) {
        Long bytes = bytes(one);
        try {
            one.clear(lock);
            show(one, bytes, true, entries);
            return true;
        } catch (IOException refused) {
            show(one, bytes, false, entries);
            Problem why = notDeleted(one.folder().toString(), refused);
            console.complain(why.what(), why.todo());
            return false;
        }
    }

    /** Why a folder stays: what lies in it, is open or goes on, which says itself what to do, or what the drive answered. */
    static Problem notDeleted(String folder, IOException refused) {
        boolean said = refused instanceof LeftOver.NotOursException
                || refused instanceof LeftOver.InUseException
                || refused instanceof RunLock.DriveInUseException;
        return said
                ? Problem.cannot(Inert.whole(String.valueOf(refused.getMessage())), "")
                : Problem.cannot(
                        Inert.quoted(folder) + " was not deleted, or not all of it (" + RunFiles.reason(refused) + ")",
                        "see that the drive takes writes (its lock switch, how it is mounted), then clear again");
    }

    private void show(LeftOver one, @Nullable Long bytes, boolean deleted, List<Map<String, Object>> entries) {
        Map<String, Object> entry = new LinkedHashMap<>();
        entry.put("folder", one.folder().toString());
        entry.put("runId", one.runId());
        entry.put("startedAt", one.startedAt());
        entry.put("record", one.record());
        entry.put("bytes", bytes);
        entry.put("deleted", deleted);
        entries.add(entry);
        if (!json.asked) {
            console.out()
                    .println(Inert.whole((deleted ? "deleted " : "found ") + one.folder() + ", "
                            + (bytes == null ? "size unknown" : Units.bytes(bytes)) + ", of the run of "
                            + one.startedAt()
                            + ", whose record was " + one.record()));
        }
    }

    private static @Nullable Long bytes(LeftOver one) {
        try {
            return one.bytes();
        } catch (IOException unknown) {
            return null;
        }
    }
}
