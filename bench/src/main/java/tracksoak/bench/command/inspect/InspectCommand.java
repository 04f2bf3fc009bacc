package tracksoak.bench.command.inspect;

import com.github.f4b6a3.uuid.UuidCreator;
import java.nio.file.Path;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonCommand;
import tracksoak.bench.command.console.OutOption;
import tracksoak.bench.command.console.ProgressDisplay;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.bench.inspect.InspectJob;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.json.RecordFormats;

/** What did the recorder leave, and is it whole? */
@Command(
        name = "inspect",
        header = "Look at a recording that a recorder made, and find what is missing.",
        customSynopsis = "tracksoak inspect PATH [--session-out FILE] [--out FOLDER] [--json]",
        description = {
            "Reads every header and every sample of the WAVE files (RIFF, RF64, BW64) under PATH and says for each track what it"
                    + " is, and what is wrong with it and where. Nothing of the recording is ever written to.",
            "Where tracks carry the signal that tracksoak signal makes, every missing, repeated or moved sample is found. The exit"
                    + " code is the verdict's."
        },
        sortOptions = false)
public final class InspectCommand extends JsonCommand {

    @Parameters(
            paramLabel = "PATH",
            description = "The folder a recording lies in, the whole drive, one file, or an image of a drive.")
    Path path = Path.of("");

    @Option(
            names = "--session-out",
            paramLabel = "FILE",
            description =
                    "Also write the session that the recording implies; what it does not show is marked as a guess.")
    @Nullable
    Path sessionOut;

    @Option(
            names = {"-o", "--out"},
            paramLabel = "FOLDER",
            description = "Put the record and its page here. Without it: a new folder of your records.")
    @Nullable
    Path out;

    private final StopSignal stop;

    public InspectCommand(Console console, Rooms rooms, StopSignal stop) {
        super(console, rooms);
        this.stop = stop;
    }

    @Override
    public Integer call() {
        UUID id = UuidCreator.getTimeOrderedEpoch();
        ProgressDisplay display = new ProgressDisplay(console, SystemClocks.NANO);
        InspectJob job = new InspectJob(
                rooms,
                SystemClocks.EPOCH,
                (done, all) -> display.show(() -> "inspecting: " + Units.bytes(done) + " of " + Units.bytes(all)));
        Path folder = new OutOption(out).folder(rooms, id);
        return stop.during(job.off(), console, () -> {
            InspectJob.Done done;
            try {
                done = job.run(new InspectJob.Order(id, path, folder, sessionOut));
            } finally {
                display.clear();
            }
            return done == null ? Exit.INTERRUPTED : show(done);
        });
    }

    private int show(InspectJob.Done done) {
        if (json.asked) {
            console.out().print(RecordFormats.INSPECTION.write(done.record()));
            console.say("report: " + Inert.whole(done.files().page().toString()));
        } else {
            InspectSummary.print(done, console);
        }
        return Exit.of(done.record().outcome());
    }
}
