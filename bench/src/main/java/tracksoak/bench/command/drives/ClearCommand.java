package tracksoak.bench.command.drives;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonCommand;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.TerminalListener;
import tracksoak.bench.drive.folder.LeftOver;
import tracksoak.bench.job.Clear;
import tracksoak.bench.job.JobListener;
import tracksoak.bench.job.KeepsakesLeft;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
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
public final class ClearCommand extends JsonCommand {

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

    private final JobListener listener;

    public ClearCommand(Console console, Rooms rooms) {
        super(console, rooms);
        this.listener = new TerminalListener(console, () -> {});
    }

    @Override
    public Integer call() {
        Clear clear = new Clear(rooms, path);
        if (!clear.warning().isEmpty()) {
            listener.note(clear.warning());
        }
        String named = keepsake;
        return named != null ? keepsake(clear, named) : leftOvers(clear);
    }

    private int leftOvers(Clear clear) {
        KeepsakesLeft keepsakes = clear.keepsakes();
        List<Clear.Folder> folders = new ArrayList<>();
        int left = clear.leftOvers(yes, folder -> {
            folders.add(folder);
            show(folder);
        });
        if (json.asked) {
            Map<String, Object> document = JsonOption.document("clear/1");
            document.put("path", path.toString());
            document.put("folders", folders.stream().map(ClearCommand::json).toList());
            document.put(
                    "keepsakes",
                    keepsakes.all().stream().map(KeepsakeText::json).toList());
            print(document);
        } else if (left == 0) {
            console.out()
                    .println("Nothing of an earlier run lies in " + Inert.quoted(path)
                            + (keepsakes.all().isEmpty() ? "." : " but what it left on purpose."));
        }
        keepsakes.unreadable().forEach(listener::trouble);
        keepsakes.all().forEach(one -> listener.note(KeepsakeText.sentence(one)));
        if (!yes && left > 0) {
            listener.note("nothing was deleted; add --yes to delete what is listed");
        }
        return folders.stream().allMatch(folder -> folder.kept() == null) ? Exit.DONE : Exit.COULD_NOT_RUN;
    }

    private void show(Clear.Folder folder) {
        LeftOver one = folder.leftOver();
        Long bytes = folder.bytes();
        if (!json.asked) {
            console.out()
                    .println(Inert.whole((folder.deleted() ? "deleted " : "found ") + one.folder() + ", "
                            + (bytes == null ? "size unknown" : Units.bytes(bytes)) + ", of the run of "
                            + one.startedAt()
                            + ", whose record was " + one.record()));
        }
        Problem kept = folder.kept();
        if (kept != null) {
            listener.trouble(kept);
        }
    }

    private static Map<String, Object> json(Clear.Folder folder) {
        LeftOver one = folder.leftOver();
        Map<String, Object> entry = new LinkedHashMap<>();
        entry.put("folder", one.folder().toString());
        entry.put("runId", one.runId());
        entry.put("startedAt", one.startedAt());
        entry.put("record", one.record());
        entry.put("bytes", folder.bytes());
        entry.put("deleted", folder.deleted());
        return entry;
    }

    private int keepsake(Clear clear, String name) {
        Clear.Named found = clear.keepsake(name, yes);
        Long bytes = found.bytes();
        if (json.asked) {
            Map<String, Object> entry = new LinkedHashMap<>();
            entry.put("folder", path.resolve(name).toString());
            entry.put("there", found.there());
            entry.put("bytes", bytes);
            entry.put("deleted", yes);
            Map<String, Object> document = JsonOption.document("clear/1");
            document.put("path", path.toString());
            document.put("folders", List.of());
            document.put("keepsakes", List.of(entry));
            print(document);
        } else {
            console.out()
                    .println(Inert.whole((yes ? "deleted " : "found ")
                            + (found.there() ? path.resolve(name) : "the list of " + name)
                            + (bytes == null ? "" : ", " + Units.bytes(bytes))));
        }
        found.unreadable().forEach(listener::trouble);
        if (!yes) {
            listener.note("nothing was deleted; add --yes to delete it");
        }
        return Exit.DONE;
    }
}
