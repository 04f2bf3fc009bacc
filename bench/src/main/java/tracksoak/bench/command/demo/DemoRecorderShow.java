package tracksoak.bench.command.demo;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.JsonText;
import tracksoak.bench.command.standin.LearnedText;
import tracksoak.bench.command.standin.RecorderSheets;
import tracksoak.bench.recorder.watch.HostWatch;
import tracksoak.bench.standin.RequestWatch;
import tracksoak.bench.standin.VirtualStandIn;
import tracksoak.bench.standin.learn.BufferFound;
import tracksoak.bench.standin.learn.BufferReader;
import tracksoak.bench.standin.learn.LearnedSession;
import tracksoak.bench.standin.learn.Learner;
import tracksoak.bench.standin.learn.Pattern;
import tracksoak.bench.standin.model.ModelRecorder;
import tracksoak.bench.standin.model.RecorderModel;
import tracksoak.bench.standin.model.RecorderModel.Overrun;
import tracksoak.bench.standin.probe.Probe;
import tracksoak.bench.standin.probe.ProbePlan;
import tracksoak.bench.standin.trace.Entry;
import tracksoak.bench.standin.trace.Note;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.profiles.base.VirtualClock;

/** Measures the recorder of the invented theatre on a stand-in, on virtual time, and fills its session file. */
final class DemoRecorderShow {

    private static final long DRIVE_BYTES = 64L << 30;
    private static final long PLAIN_NS = 120_000_000_000L;
    private static final long LONGEST_NS = 3_600_000_000_000L;
    private static final String SESSION = "lantern-wagon-learnt";

    /** What the theatre's recorder is; nothing of it is told to what measures it. */
    private static final RecorderModel RECORDER = new RecorderModel(
            16,
            48_000,
            3,
            false,
            64 << 10,
            false,
            1,
            4,
            false,
            Overrun.DROPS,
            10,
            5,
            0,
            Long.MAX_VALUE,
            "exfat",
            128 << 10);

    private final Console console;

    DemoRecorderShow(Console console) {
        this.console = console;
    }

    /** Hears of requests once there is a probe. */
    private static final class Later implements RequestWatch {
        private @Nullable Probe probe;

        @Override
        public void answered(Entry entry) {
            if (probe != null) {
                probe.answered(entry);
            }
        }
    }

    int show(Path folder, boolean json) {
        console.say("the Lantern Wagon's recorder, which is invented, records on a stand-in; hours pass in seconds");
        Pattern pattern;
        BufferFound buffer;
        Path session = folder.resolve(SESSION + ".toml");
        try {
            Files.createDirectories(folder);
            pattern = plain(folder.resolve("recorder.trace"));
            console.say("its pattern is seen; now the drive stops, longer and longer");
            buffer = probed(folder.resolve("recorder-probe.trace"));
            String text = LearnedSession.text(pattern, buffer, DemoSession.lanternWagon(), SESSION);
            if (!AtomicFile.create(session, text.getBytes(StandardCharsets.UTF_8))) {
                throw Problem.askedWrong(
                        Inert.quoted(session) + " is there already; it is never written over",
                        "name another folder with --out");
            }
        } catch (IOException refused) {
            throw Problem.cannot(
                    "the folder " + Inert.quoted(folder) + " cannot be written to (" + Problem.reason(refused) + ")",
                    "name another with --out");
        }
        Path page = folder.resolve("recorder.html");
        RecorderSheets.save(page, pattern, buffer, null);
        if (json) {
            Map<String, Object> document = JsonOption.document("demo-recorder/1");
            LearnedText.put(document, pattern, buffer, null);
            document.put("session", session.toString());
            document.put("page", page.toString());
            console.out().println(JsonText.of(document));
        } else {
            LearnedText.print(pattern, buffer, null, console.out());
            console.out().println("Its session: " + Inert.whole(session.toString()));
            console.out().println("Its page: " + Inert.whole(page.toString()));
            console.out().println("Next, with a recorder of your own: docs/recorder.md");
        }
        console.out().flush();
        return Exit.DONE;
    }

    private static Pattern plain(Path trace) throws IOException {
        VirtualClock clock = new VirtualClock(SystemClocks.EPOCH.epochMillis());
        try (VirtualStandIn drive = new VirtualStandIn(DRIVE_BYTES, clock, trace, RequestWatch.NONE)) {
            new ModelRecorder(RECORDER, clock, drive, DRIVE_BYTES).record(() -> clock.nanoTime() < PLAIN_NS);
            drive.endTrace();
            return Learner.learn(trace, drive.bytes());
        }
    }

    private BufferFound probed(Path trace) throws IOException {
        VirtualClock clock = new VirtualClock(SystemClocks.EPOCH.epochMillis());
        Later later = new Later();
        try (VirtualStandIn drive = new VirtualStandIn(DRIVE_BYTES, clock, trace, later)) {
            Probe probe = new Probe(
                    new ProbePlan(0.25, 20, 0.02),
                    Probe.Pace.USUAL,
                    drive.stops(),
                    DRIVE_BYTES,
                    HostWatch.NONE,
                    false,
                    console::say,
                    us -> drive.note(Note.FELL_SHORT, us));
            later.probe = probe;
            new ModelRecorder(RECORDER, clock, drive, DRIVE_BYTES)
                    .record(() -> !probe.done() && clock.nanoTime() < LONGEST_NS);
            drive.endTrace();
            return BufferReader.read(trace, drive.bytes());
        }
    }
}
