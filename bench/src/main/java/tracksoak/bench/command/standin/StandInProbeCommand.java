package tracksoak.bench.command.standin;

import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Amounts;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonCommand;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.bench.command.standin.StandInLearnCommand.Both;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.standin.RequestWatch;
import tracksoak.bench.standin.StandIn;
import tracksoak.bench.standin.probe.Probe;
import tracksoak.bench.standin.probe.ProbePlan;
import tracksoak.bench.standin.trace.Entry;
import tracksoak.bench.standin.trace.Note;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.profiles.base.Units;

/** Measures how much a recorder holds. */
@Command(
        name = "probe",
        header = "Measure how much the recorder holds: stop longer and longer until it loses audio.",
        description = {
            "Serves the drive as serve does and waits until the recorder records. Then the drive stops, one stop at a time with "
                    + "rest between, longer each time until audio is lost; then the bounds are brought together and the longest "
                    + "stop that was held is repeated. It takes five to fifteen minutes.",
            "When it says so, stop the recorder, let it unmount the drive, and disconnect it: trace and image are then read, and "
                    + "the buffer is told. Ctrl-C does so earlier. Never use it for a recording that matters."
        },
        sortOptions = false)
public final class StandInProbeCommand extends JsonCommand {

    private static final double LEAST_S = 0.05;
    private static final double MOST_S = 60;
    private static final long TICK_MS = 250;

    @Mixin
    ServeOptions where = new ServeOptions();

    @Option(
            names = "--first",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            defaultValue = "250ms",
            description = "The first stop: ${DEFAULT-VALUE}.")
    double firstS;

    @Option(
            names = "--longest",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            defaultValue = "20s",
            description = "No stop is longer: ${DEFAULT-VALUE}. After about 30 s many recorders give a drive up.")
    double longestS;

    @Option(
            names = "--ask",
            description =
                    "You say, after each stop that shows no loss, whether audio was lost: l and Enter for lost, Enter alone "
                            + "for none. For recorders whose writes do not show it.")
    boolean ask;

    @Mixin
    LearnOptions into = new LearnOptions();

    private final StopSignal stop;

    public StandInProbeCommand(Console console, Rooms rooms, StopSignal stop) {
        super(console, rooms);
        this.stop = stop;
    }

    /** Hears of requests once there is a probe; it needs the stand-in, which needs who hears. */
    private static final class Later implements RequestWatch {
        private @Nullable Probe probe;
        private @Nullable StandIn standIn;

        @Override
        public void answered(Entry entry) {
            if (probe != null) {
                probe.answered(entry);
            }
        }
    }

    @Override
    public Integer call() {
        if (firstS < LEAST_S || longestS > MOST_S || firstS > longestS) {
            throw Problem.askedWrong(
                    "--first " + Units.seconds(firstS) + " and --longest " + Units.seconds(longestS)
                            + " do not fit; allowed: " + Units.seconds(LEAST_S) + " to " + Units.seconds(MOST_S)
                            + ", the first not the longer",
                    "choose times in between");
        }
        into.check(rooms);
        Both against = Both.other(into);
        InetSocketAddress at = where.address();
        Path trace = where.trace();
        Later later = new Later();
        StandIn standIn = where.open(at, trace, null, new Ending(console, later), later);
        later.standIn = standIn;
        try (StopSignal.Watch watch = stop.onStop(standIn::stop)) {
            boolean done = serve(standIn, later, at, trace);
            if (standIn.served().writes() == 0) {
                console.say(
                        "it was ended before a recorder wrote anything: nothing was seen, so there is nothing to tell");
                return watch.stopped() ? Exit.INTERRUPTED : Exit.COULD_NOT_RUN;
            }
            if (!done) {
                console.say("it was ended before everything was tried; what was seen is told all the same");
            }
            tell(trace, against, watch);
            return watch.stopped() ? Exit.INTERRUPTED : Exit.DONE;
        }
    }

    /** Still watched: after Ctrl-C the process waits for this, and for nothing that would be told later. */
    private void tell(Path trace, @Nullable Both against, StopSignal.Watch watch) {
        try {
            StandInLearnCommand.learn(trace, where.image, against, into, json.asked, console, rooms);
        } catch (Problem nothing) {
            if (!watch.stopped()) {
                throw nothing;
            }
            console.complain(nothing.told(), nothing.todo());
        }
    }

    /** Serves until the client leaves after the last try, or Ctrl-C; whether everything was tried. */
    private boolean serve(StandIn served, Later later, InetSocketAddress at, Path trace) {
        try (StandIn standIn = served) {
            ProbePlan plan = new ProbePlan(firstS, longestS, 0.02);
            Probe probe = new Probe(
                    plan,
                    Probe.Pace.USUAL,
                    standIn.stops(),
                    standIn.sizeBytes(),
                    standIn.hostWatch(),
                    ask,
                    this::say,
                    us -> standIn.note(Note.FELL_SHORT, us));
            later.probe = probe;
            where.say(console, at, standIn.port(), trace);
            console.say("let the recorder format the drive if it asks, and record all tracks you will use");
            Thread ticking = new Thread(() -> tick(standIn, probe), "probe ticks");
            ticking.setDaemon(true);
            ticking.start();
            if (ask) {
                listen(standIn, probe);
            }
            standIn.serve();
            ticking.interrupt();
            sayStops(plan);
            return probe.done();
        }
    }

    /** What the stops have shown by all tracks together, for drives whose files cannot be told apart. */
    private void sayStops(ProbePlan plan) {
        plan.heldS().ifPresent(s -> console.say("the longest stop that was held took " + Units.seconds(s)));
        plan.lostS()
                .ifPresent(s -> console.say(
                        "the shortest stop with which all tracks together lost audio took " + Units.seconds(s)));
    }

    /** Ends the serving when the client leaves after everything was tried. */
    private static final class Ending extends Told {

        private final Later later;

        Ending(Console console, Later later) {
            super(console);
            this.later = later;
        }

        @Override
        public void gone(String peer) {
            super.gone(peer);
            Probe probe = later.probe;
            StandIn standIn = later.standIn;
            if (probe != null && probe.done() && standIn != null) {
                standIn.stop();
            }
        }
    }

    private void say(String what) {
        console.say(what);
        if (what.equals(Probe.ALL_TRIED)) {
            console.say("now stop the recorder, let it unmount the drive, and disconnect it (or press Ctrl-C here)");
        }
    }

    private static void tick(StandIn standIn, Probe probe) {
        while (!Thread.currentThread().isInterrupted()) {
            SystemClocks.PARK.waitUntil(SystemClocks.NANO.nanoTime() + TimeUnit.MILLISECONDS.toNanos(TICK_MS));
            standIn.soon(() -> probe.tick(standIn.nowUs()));
        }
    }

    private void listen(StandIn standIn, Probe probe) {
        Thread listening = new Thread(
                () -> {
                    String line = rooms.typedLine("");
                    while (line != null) {
                        boolean lost = line.strip().equalsIgnoreCase("l");
                        standIn.soon(() -> {
                            standIn.note(lost ? Note.HEARD_LOST : Note.HEARD_NONE, 0);
                            probe.person(lost);
                        });
                        line = rooms.typedLine("");
                    }
                },
                "probe keys");
        listening.setDaemon(true);
        listening.start();
    }
}
