package tracksoak.bench.command.standin;

import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonCommand;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.bench.command.drives.SimulatedNames;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.SimulatedTarget;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.standin.RequestWatch;
import tracksoak.bench.standin.Served;
import tracksoak.bench.standin.StandIn;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.HostDelays;

/** Serves a stand-in. */
@Command(
        name = "serve",
        header = "Be a drive for a recorder, and write down what it asks for.",
        description = {
            "Serves a file of this computer as a network block device. It behaves like a plain good drive, or like a simulated "
                    + "one in real time, so that you see what your recorder does on a bad drive.",
            "One recorder at a time. Ctrl-C ends it; then: tracksoak stand-in learn TRACE IMAGE"
        },
        sortOptions = false)
public final class StandInServeCommand extends JsonCommand {

    @Mixin
    @SuppressWarnings("NullAway.Init")
    ServeOptions where = new ServeOptions();

    @Option(
            names = "--as",
            paramLabel = "DRIVE",
            completionCandidates = SimulatedNames.class,
            description =
                    "Behave like this simulated drive: ${COMPLETION-CANDIDATES}; or a drive file, NAME.toml. Without --size "
                            + "a new image gets its size.")
    @Nullable
    String as;

    private final StopSignal stop;

    public StandInServeCommand(Console console, Rooms rooms, StopSignal stop) {
        super(console, rooms);
        this.stop = stop;
    }

    @Override
    public Integer call() {
        String named = as;
        DriveModel model = named == null ? null : SimulatedTarget.model(named);
        InetSocketAddress at = where.address();
        Path trace = where.trace();
        StandIn standIn = where.open(at, trace, model, new Told(console), RequestWatch.NONE);
        try (StopSignal.Watch watch = stop.onStop(standIn::stop)) {
            Served served;
            HostDelays host;
            try (standIn) {
                where.say(console, at, standIn.port(), trace);
                standIn.serve();
                served = standIn.served();
                host = standIn.host();
            }
            show(served, host, trace);
            return watch.stopped() ? Exit.INTERRUPTED : Exit.DONE;
        }
    }

    private void show(Served served, HostDelays host, Path trace) {
        if (json.asked) {
            Map<String, Object> document = JsonOption.document("stand-in-serve/1");
            document.put("trace", trace.toString());
            document.put("served", served);
            document.put("longestHostDelayMs", host.canaryMaxMs());
            print(document);
        } else {
            console.out()
                    .println("Writes answered: " + Count.number(served.writes()) + ", "
                            + Units.bytes(served.writtenBytes()));
            if (served.writes() > 0) {
                console.out()
                        .println("Service time of a write: half within " + Units.ms(served.medianMs())
                                + ", 99 of 100 within " + Units.ms(served.p99Ms()) + ", the longest "
                                + Units.ms(served.longestMs()));
                console.out()
                        .println("This computer itself: at most " + Units.ms(served.ownMs())
                                + " for a request; woke up " + Units.ms(host.canaryMaxMs()) + " late at most");
            }
            console.out().println("Trace: " + Inert.whole(trace.toString()));
        }
        console.out().flush();
    }
}
