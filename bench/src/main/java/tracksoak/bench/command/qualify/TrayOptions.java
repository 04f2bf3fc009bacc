package tracksoak.bench.command.qualify;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tracksoak.bench.job.Drives;
import tracksoak.bench.tray.RunOrders;
import tracksoak.bench.tray.RunProcess;
import tracksoak.bench.tray.RunShelf;
import tracksoak.bench.tray.Tray;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.roster.identity.DriveTag;

/** Several drives in one go. */
final class TrayOptions {

    private static final String GO_ON = "--go-on";
    private static final List<String> WITH_GO_ON = List.of("--more", "--json");
    private static final List<String> NOT_HANDED_ON =
            List.of("--tray", GO_ON, "--out", "--json", "--live", "--tag", "--dry-run");

    @Option(
            names = "--tray",
            paramLabel = "[TAG=]PATH",
            arity = "1..*",
            description = {
                "Test several drives in one go. They record at the same time where their hub and this computer carry"
                        + " them all, and are filled and read back one at a time.",
                "What a drive missed while others worked beside it is asked again alone. The runs go on when this"
                        + " command ends."
            })
    @Nullable
    List<String> drives;

    @Option(names = GO_ON, description = "Go on with the last tray, where it was cut short.")
    boolean goOn;

    @Spec(Spec.Target.MIXEE)
    @SuppressWarnings("NullAway.Init")
    CommandSpec spec;

    boolean asked() {
        return drives != null || goOn;
    }

    int run(QualifyCommand command) {
        RunShelf shelf = new RunShelf(command.rooms.stateFolder(), SystemClocks.EPOCH);
        Tray tray = new Tray(shelf, new RunProcess(Map.of()), SystemClocks.EPOCH, RunOrders::newId);
        TrayLines lines = new TrayLines(tray, shelf, command);
        boolean dryRun = command.qualification.care.dryRun;
        if (goOn) {
            alone(command);
            String last = tray.trays().stream()
                    .findFirst()
                    .orElseThrow(() -> Problem.askedWrong(
                            "there is no tray to go on with", "start one: tracksoak qualify --tray PATH..."));
            tray.goOn(last);
            return lines.watch(last);
        }
        if (command.drive.path != null || command.drive.isSimulated() || command.waitOptions.asked) {
            throw Problem.askedWrong(
                    "--tray excludes a PATH of its own, --simulated and --wait", "name every drive after --tray");
        }
        if (command.tagOption.text != null) {
            throw Problem.askedWrong("--tag names one drive, and --tray many", "give each its own: --tray TAG=PATH...");
        }
        String id = RunOrders.newId();
        List<RunOrders.Ready> ready = ready(command, id);
        if (dryRun) {
            return TrayDryRunText.print(ready, command);
        }
        for (RunOrders.Ready one : ready) {
            one.order()
                    .remarks()
                    .forEach(remark ->
                            command.console.say(Inert.whole(one.order().name() + ": " + remark)));
        }
        ready.forEach(one -> tray.start(one.order()));
        return lines.watch(id);
    }

    /** What is done was asked when the tray was begun. */
    private void alone(QualifyCommand command) {
        List<String> more = new ArrayList<>();
        if (command.drive.path != null) {
            more.add(Inert.quoted(command.drive.path));
        }
        spec.commandLine().getParseResult().matchedOptions().stream()
                .map(OptionSpec::longestName)
                .filter(name -> !GO_ON.equals(name) && !WITH_GO_ON.contains(name))
                .forEach(more::add);
        if (!more.isEmpty()) {
            throw Problem.askedWrong(
                    "--go-on goes on with what the last tray was asked for, and takes nothing else: "
                            + Count.list(more),
                    "for other drives or another session: tracksoak qualify --tray PATH...");
        }
    }

    private List<RunOrders.Ready> ready(QualifyCommand command, String id) {
        Qualification asks = command.qualification;
        List<RunOrders.Asked> asked = new ArrayList<>();
        for (String word : Objects.requireNonNull(drives)) {
            TaggedPath one = TaggedPath.of(word);
            asked.add(new RunOrders.Asked(
                    Drives.at(command.rooms, one.path),
                    one.path.toAbsolutePath().normalize(),
                    one.tag));
        }
        return new RunOrders(command.rooms, SystemClocks.EPOCH)
                .ready(
                        asked,
                        id,
                        this::words,
                        command.order(),
                        asks.care.allowSystemDrive,
                        (drive, tag) -> asks.rosterEntry.against(drive, tag, command.rooms, command.console));
    }

    /** The same command for one drive alone. */
    private List<String> words(RunOrders.Asked one) {
        List<String> words = new ArrayList<>(List.of("qualify", one.path().toString()));
        for (OptionSpec option : spec.commandLine().getParseResult().matchedOptions()) {
            String name = option.longestName();
            if (NOT_HANDED_ON.contains(name)) {
                continue;
            }
            if (option.arity().max() == 0) {
                words.add(name);
            } else {
                option.originalStringValues().forEach(value -> words.add(name + "=" + value));
            }
        }
        if (!one.tag().isEmpty()) {
            words.add("--tag=" + one.tag());
        }
        return words;
    }

    /** A drive as typed: a path, or a tag and a path. */
    private record TaggedPath(String tag, Path path) {

        static TaggedPath of(String word) {
            int is = word.indexOf('=');
            if (is <= 0 || Files.exists(Path.of(word))) {
                return new TaggedPath("", Path.of(word));
            }
            return new TaggedPath(DriveTag.of(word.substring(0, is)), Path.of(word.substring(is + 1)));
        }
    }
}
