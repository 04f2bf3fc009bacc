package tracksoak.bench.command.main;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.AutoComplete;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.HelpOption;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.job.Drives;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.simulated.catalog.SimulatedDrives;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Shipped;

/** Prints what a shell needs to complete commands, options and their values. */
@Command(name = "completion", header = "Print completion for bash and zsh: source <(tracksoak completion)")
final class CompletionCommand implements Callable<Integer> {

    /** Shell code after picocli's, which knows names but no meanings. */
    private static final String MEANINGS = "/tracksoak/completion.sh";

    @Mixin
    HelpOption help = new HelpOption();

    @Spec
    @SuppressWarnings("NullAway.Init")
    CommandSpec spec;

    @Option(
            names = "--words",
            paramLabel = "WHAT",
            hidden = true,
            description = "For the shell: words that fit, each with its meaning behind a tab.")
    @Nullable
    String words;

    private final Console console;
    private final Rooms rooms;

    CompletionCommand(Console console, Rooms rooms) {
        this.console = console;
        this.rooms = rooms;
    }

    @Override
    public Integer call() {
        String asked = words;
        if (asked != null) {
            words(asked).forEach((word, meaning) -> console.out().println(word + "\t" + Inert.whole(meaning)));
            return Exit.DONE;
        }
        console.out().print(AutoComplete.bash("tracksoak", spec.root().commandLine()));
        console.out().print(Shipped.text(MEANINGS));
        return Exit.DONE;
    }

    private Map<String, String> words(String what) {
        Map<String, String> found = new LinkedHashMap<>();
        switch (what) {
            case "sessions" ->
                SessionCatalog.of(rooms.sessionsFolder())
                        .all()
                        .forEach(session -> found.put(session.name(), session.title()));
            case "drives" ->
                rooms.drives().stream().map(FoundDrive::facts).forEach(drive -> {
                    String mount = drive.mount();
                    if (mount != null) {
                        found.put(mount, Drives.name(drive));
                    }
                });
            case "simulated" -> SimulatedDrives.all().forEach(drive -> found.put(drive.name(), drive.about()));
            default ->
                throw Problem.askedWrong(
                        "--words knows no " + Inert.quoted(what), "ask for sessions, drives or simulated");
        }
        return found;
    }
}
