package tracksoak.bench.command.bench;

import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.bench.command.roster.OneRosterCommand;
import tracksoak.bench.command.roster.RosterServing;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RosterAccess;
import tracksoak.bench.page.BenchSite;
import tracksoak.bench.tray.RunOrders;
import tracksoak.bench.tray.RunProcess;
import tracksoak.bench.tray.RunShelf;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.page.bench.HelpView;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.web.page.RosterSite;
import tracksoak.report.roster.web.server.CrewToken;
import tracksoak.report.roster.web.server.RosterServer;
import tracksoak.report.roster.web.server.RosterSettings;
import tracksoak.report.roster.web.server.TokenFile;

/** The bench and the roster as pages of this computer. */
@Command(
        name = "bench",
        header = "Open the bench in the browser: test drives by looking and clicking.",
        description = {
            "Only this computer reaches it, and only the user who started it. Tests go on when the page, or this"
                    + " command, is closed.",
            "A second start opens the page of the first. Ctrl-C ends it."
        },
        sortOptions = false)
public final class BenchCommand extends OneRosterCommand {

    private static final String TOKENS = "bench-tokens.json";
    private static final long LOOK_AFTER_S = 2;
    private static final int LOOKS = 50;
    private static final long LOOK_AGAIN_MS = 200;
    private static final List<String> BESIDES = List.of("--leave-keepsake", "--wait");

    @Option(
            names = "--port",
            paramLabel = "N",
            defaultValue = "0",
            description = "Port to listen on, 0 for any free one: ${DEFAULT-VALUE}.")
    int port;

    @Option(names = "--no-browser", description = "Open no browser, only print the address.")
    boolean noBrowser;

    private final StopSignal stop;
    private final Supplier<CommandSpec> all;

    /** @param all the tree of all commands */
    public BenchCommand(Console console, Rooms rooms, StopSignal stop, Supplier<CommandSpec> all) {
        super(console, rooms);
        this.stop = stop;
        this.all = all;
    }

    @Override
    public Integer call() throws InterruptedException {
        RosterSettings settings = RosterSettings.loopback().withPort(port).withOpenReading(false);
        for (int look = 0; look < LOOKS; look++) {
            try (BenchDoor door = BenchDoor.at(rooms.stateFolder())) {
                if (!door.taken()) {
                    return serve(door, settings);
                }
                Optional<String> there = door.address().filter(BenchDoor::answers);
                if (there.isPresent()) {
                    say(there.get(), "The bench runs already, at ");
                    show(door);
                    return Exit.DONE;
                }
            }
            // it is just starting, or just ending
            TimeUnit.MILLISECONDS.sleep(LOOK_AGAIN_MS);
        }
        throw Problem.cannot(
                "another bench of yours is there, but does not answer",
                "try again in a moment, or end it and start anew");
    }

    private int serve(BenchDoor door, RosterSettings settings) throws InterruptedException {
        SecureRandom random = new SecureRandom();
        Path file = rooms.stateFolder().resolve(TOKENS);
        TokenFile tokens = new TokenFile(file);
        String now = RosterAccess.clock().instant().toString();
        CrewToken.Fresh key = CrewToken.make("the bench's own page", now, "", random);
        tokens.keepOnly(key.kept());
        ScheduledExecutorService trays = Executors.newSingleThreadScheduledExecutor(task -> {
            Thread thread = new Thread(task, "trays");
            thread.setDaemon(true);
            return thread;
        });
        try (Roster roster = rosterOption.open(rooms, console)) {
            BenchSite site = new BenchSite(
                    rooms,
                    roster,
                    new RunShelf(rooms.stateFolder(), SystemClocks.EPOCH),
                    new RunProcess(Map.of()),
                    rosterWords(),
                    random,
                    SystemClocks.EPOCH,
                    SystemClocks.NANO,
                    RosterAccess.clock(),
                    RunOrders::newId,
                    () -> commands(all.get()));
            RosterServer server = RosterSite.serve(
                    settings,
                    roster,
                    SessionCatalog.of(rooms.sessionsFolder()).all(),
                    tokens,
                    RosterAccess.clock(),
                    RosterServing.log(console, false),
                    site);
            var unused =
                    trays.scheduleWithFixedDelay(() -> lookAfter(site), LOOK_AFTER_S, LOOK_AFTER_S, TimeUnit.SECONDS);
            return RosterServing.untilStopped(
                    server,
                    stop,
                    started -> {
                        String address = started.address() + "open?key=" + key.text();
                        door.lead(address);
                        say(address, "The bench is at ");
                        show(door);
                    },
                    door::close);
        } finally {
            trays.shutdownNow();
        }
    }

    private void lookAfter(BenchSite site) {
        try {
            site.lookAfterTrays();
        } catch (RuntimeException failed) {
            console.complain("the tray cannot be looked after: " + failed.getMessage(), "");
        }
    }

    /** All commands but this one, and what {@code qualify} does besides, as people type it: for the help of the page. */
    static List<HelpView.Command> commands(CommandSpec root) {
        return root.subcommands().values().stream()
                .map(CommandLine::getCommandSpec)
                .filter(one -> !one.name().equals("bench") && !one.name().equals("help"))
                .flatMap(one -> Stream.concat(
                        Stream.of(new HelpView.Command(words(one), sentence(one))),
                        one.name().equals("qualify")
                                ? BESIDES.stream().map(option -> besides(one, option))
                                : Stream.of()))
                .toList();
    }

    private static HelpView.Command besides(CommandSpec command, String name) {
        OptionSpec option = command.findOption(name);
        return new HelpView.Command(
                words(command) + " " + name + (option.arity().max() == 0 ? "" : " " + option.paramLabel()),
                String.join(" ", option.description()));
    }

    /** {@code tracksoak drill PATH --session NAME}: what must be there, nothing that may. */
    private static String words(CommandSpec command) {
        String[] synopsis = command.usageMessage().customSynopsis();
        return synopsis.length == 0
                ? command.qualifiedName()
                : synopsis[0].replaceAll("( *\\[[^\\]]*\\])+", "").strip();
    }

    private static String sentence(CommandSpec command) {
        return String.join(" ", command.usageMessage().header());
    }

    private List<String> rosterWords() {
        @Nullable String place = rosterOption.place;
        return place == null ? List.of() : List.of("--roster=" + place);
    }

    private void say(String address, String sentence) {
        if (json.asked) {
            Map<String, Object> document = JsonOption.document("bench/1");
            document.put("address", address);
            print(document);
        } else {
            console.out().println(sentence + address);
        }
        console.out().flush();
    }

    private void show(BenchDoor door) {
        if (!noBrowser && !rooms.opened(door.page())) {
            console.say("no browser was found to open; open the address above in one on this computer");
        }
    }
}
