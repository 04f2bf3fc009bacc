package tracksoak.bench.command.inspect;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Amounts;
import tracksoak.bench.command.console.Choices;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonCommand;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.inspect.SignalFile;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Quantity;
import tracksoak.profiles.base.Units;

/** A recording to feed into the inputs of a recorder. */
@Command(
        name = "signal",
        header = "Make a test recording that shows every missing sample.",
        customSynopsis = "tracksoak signal FILE [--sample-rate RATE] [--word-length BITS] [--length TIME] [--json]",
        description = {
            "Writes a WAVE file of one track: linear timecode (SMPTE ST 12-1), 25 frames a second, peaks at -18 dBFS. Play it into"
                    + " every input of the desk while the recorder records, then: tracksoak inspect.",
            "CAUTION: it is a loud, harsh sound. Into inputs only, all outputs muted. No loudspeakers, no headphones."
        },
        sortOptions = false)
public final class SignalCommand extends JsonCommand {

    private static final int LOWEST_HZ = 44_100;
    private static final int HIGHEST_HZ = 192_000;
    private static final double LONGEST_S = 86_400;

    @Parameters(paramLabel = "FILE", description = "The WAVE file to be made; none that is there is written over.")
    Path file = Path.of("");

    @Option(
            names = "--sample-rate",
            paramLabel = "RATE",
            converter = Amounts.SampleRate.class,
            defaultValue = "48kHz",
            description = "Samples per second, 44.1kHz to 192kHz. Without it: 48kHz.")
    int sampleRateHz;

    @Option(
            names = "--word-length",
            paramLabel = "BITS",
            converter = Choices.WordLength.class,
            completionCandidates = Choices.WordLength.class,
            defaultValue = "24-bit",
            description = "How samples are stored: ${COMPLETION-CANDIDATES}. Without it: 24-bit.")
    SampleFormat wordLength = SampleFormat.PCM_24;

    @Option(
            names = "--length",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            defaultValue = "1h",
            description = "How long it plays, 1s to 24h. Without it: 1h.")
    double lengthS;

    public SignalCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    public Integer call() {
        if (sampleRateHz < LOWEST_HZ || sampleRateHz > HIGHEST_HZ) {
            throw Problem.askedWrong(
                    "--sample-rate is " + sampleRateHz + " Hz; allowed: 44100 Hz to 192000 Hz",
                    "give the sample rate the recorder works at");
        }
        if (lengthS < 1 || lengthS > LONGEST_S) {
            throw Problem.askedWrong(
                    "--length is " + Units.seconds(lengthS) + "; allowed: 1 s to 24 h", "choose a time in between");
        }
        if (file.toString().isEmpty()) {
            throw Problem.askedWrong("the FILE given is empty", "name the file to be made, ending in .wav");
        }
        Path folder = file.toAbsolutePath().getParent();
        if (folder != null && !Files.isDirectory(folder)) {
            throw Problem.askedWrong(
                    "the folder of " + Inert.quoted(file) + " does not exist", "make it first, or name another place");
        }
        SignalFile signal = new SignalFile(sampleRateHz, wordLength, lengthS);
        boolean made;
        try {
            made = signal.write(file);
        } catch (IOException refused) {
            throw Problem.cannot(
                    "the test signal cannot be written to " + Inert.quoted(file) + " (" + Problem.reason(refused) + ")",
                    "it takes " + Units.bytes(signal.fileBytes()) + ": name a place with room for it");
        }
        if (!made) {
            throw Problem.askedWrong(
                    Inert.quoted(file) + " is there already; it is never written over", "name a new file");
        }
        show(signal);
        return Exit.DONE;
    }

    private void show(SignalFile signal) {
        if (json.asked) {
            var document = JsonOption.document("signal/1");
            document.put("file", file.toString());
            document.put("bytes", signal.fileBytes());
            document.put("sampleRateHz", sampleRateHz);
            document.put("wordLength", wordLength.words());
            document.put("lengthS", lengthS);
            document.put("framesPerSecond", SignalFile.FRAMES_PER_SECOND);
            document.put("peakDbfs", SignalFile.PEAK_DBFS);
            document.put("caution", SignalFile.CAUTION);
            print(document);
        } else {
            console.out()
                    .println("test signal: " + Inert.whole(file.toString()) + ", " + Units.bytes(signal.fileBytes()));
            console.out()
                    .println("  " + Units.seconds(lengthS) + " at " + Quantity.plain(sampleRateHz / 1000.0) + " kHz, "
                            + wordLength.words() + ", peaks at " + SignalFile.PEAK_DBFS + " dBFS");
            console.out().println("  Start the recorder first, then play this once, into every input.");
            console.out().println("  Afterwards: tracksoak inspect PATH");
        }
        console.out().flush();
        console.say("CAUTION: " + SignalFile.CAUTION);
    }
}
