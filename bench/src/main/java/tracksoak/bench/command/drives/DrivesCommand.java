package tracksoak.bench.command.drives;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonCommand;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.Table;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.job.Drives;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.base.TradeName;

/** Shows what is plugged in. */
@Command(name = "drives", header = "List the drives of this computer, or show all that is known of one.")
public final class DrivesCommand extends JsonCommand {

    @Parameters(
            paramLabel = "PATH",
            arity = "0..1",
            description = "A folder or file on a drive: shows that drive in full. Without it: lists all.")
    @Nullable
    Path path;

    public DrivesCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    public Integer call() {
        Path asked = path;
        List<FoundDrive> drives = asked == null ? rooms.drives() : List.of(Drives.at(rooms, asked));
        if (json.asked) {
            Map<String, Object> document = JsonOption.document("drives/1");
            document.put("drives", drives.stream().map(DriveText::json).toList());
            print(document);
        } else if (asked == null) {
            list(drives);
        } else {
            DriveText.print(drives.get(0), console.out());
        }
        return Exit.DONE;
    }

    private void list(List<FoundDrive> drives) {
        if (drives.isEmpty()) {
            console.say("no drive was found; is it plugged in? If it is, name a folder on it: tracksoak drives PATH");
            return;
        }
        Table table = new Table("MOUNTED AT", "DRIVE", ">SIZE", ">FREE", "FILE SYSTEM", "BUS", "LINK", "");
        for (FoundDrive drive : drives) {
            String mount = drive.facts().mount();
            table.row(
                    mount == null ? "-" : mount,
                    Drives.name(drive.facts()),
                    DriveText.bytes(drive.facts().sizeBytes()),
                    DriveText.bytes(drive.facts().freeBytes()),
                    DriveText.known(TradeName.orNull(drive.facts().fileSystem())),
                    DriveText.known(TradeName.orNull(drive.facts().bus())),
                    DriveText.link(drive.facts()),
                    DriveText.remark(drive));
        }
        table.print(console);
    }
}
