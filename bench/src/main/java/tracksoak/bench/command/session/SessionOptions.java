package tracksoak.bench.command.session;

import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Amounts;
import tracksoak.bench.command.console.Choices;
import tracksoak.bench.command.console.Complaint;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.SessionOverrides;

/** Values for one run instead of the session's. */
public final class SessionOptions {

    @Option(
            names = "--tracks",
            paramLabel = "N",
            description = "Number of tracks, for a session with one kind of track.")
    @Nullable
    Integer tracks;

    @Option(
            names = "--sample-rate",
            paramLabel = "RATE",
            converter = Amounts.SampleRate.class,
            description = "Sample rate of every track: 44.1kHz, 48kHz, 96kHz.")
    @Nullable
    Integer sampleRate;

    @Option(
            names = "--word-length",
            paramLabel = "BITS",
            converter = Choices.WordLength.class,
            completionCandidates = Choices.WordLength.class,
            description = "Word length of every track: ${COMPLETION-CANDIDATES}.")
    @Nullable
    SampleFormat wordLength;

    @Option(
            names = "--length",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            description =
                    "Length of the session: 45min, 2h, 1h30min. It counts for the room, not for the run's own time.")
    @Nullable
    Double lengthS;

    @Option(
            names = "--layout",
            paramLabel = "LAYOUT",
            converter = Choices.Layout.class,
            completionCandidates = Choices.Layout.class,
            description = "How tracks share files: ${COMPLETION-CANDIDATES}.")
    @Nullable
    FileLayout layout;

    @Option(
            names = "--chunk",
            paramLabel = "SIZE",
            converter = Amounts.Size.class,
            description = "The piece of one stream written at once: 64KiB.")
    @Nullable
    Long chunkBytes;

    @Option(
            names = "--arrival",
            paramLabel = "HOW",
            converter = Choices.Arrivals.class,
            completionCandidates = Choices.Arrivals.class,
            description = "When chunks fall due: ${COMPLETION-CANDIDATES} (burst: all tracks at once, the hard case).")
    @Nullable
    Arrival arrival;

    @Option(names = "--writers", paramLabel = "N", description = "Writes in flight at once.")
    @Nullable
    Integer writers;

    @Option(
            names = "--flush",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            description = "Time between two flushes of a file: 10s; 0s for none before the end.")
    @Nullable
    Double flushS;

    @Option(
            names = "--buffer",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            description = "What the recorder can hold per track: 2s, 750ms. Given here, it is no assumption any more.")
    @Nullable
    Double bufferS;

    @Option(
            names = "--file-limit",
            paramLabel = "SIZE",
            converter = Amounts.Size.class,
            description = "Largest file before the recorder starts the next: 2GiB.")
    @Nullable
    Long fileLimitBytes;

    @Option(
            names = "--file-systems",
            paramLabel = "TYPE",
            split = ",",
            description = "File systems the recorder accepts: exfat,fat32.")
    @Nullable
    List<String> fileSystems;

    @Option(
            names = "--stall-limit",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            description = "A wait for a finished chunk longer than this is a stall: 250ms.")
    @Nullable
    Double stallLimitS;

    @Option(names = "--buffer-margin", paramLabel = "FACTOR", description = "Buffer / peak backlog asked: 1.25.")
    @Nullable
    Double bufferMargin;

    @Option(names = "--rate-margin", paramLabel = "FACTOR", description = "Write rate / demand asked: 1.5.")
    @Nullable
    Double rateMargin;

    @Option(names = "--port-margin", paramLabel = "FACTOR", description = "Link speed / demand asked: 2.")
    @Nullable
    Double portMargin;

    @Option(
            names = "--playback-margin",
            paramLabel = "FACTOR",
            description = "Read-ahead / peak shortfall asked: 1.25.")
    @Nullable
    Double playbackMargin;

    @Option(
            names = "--longest-stall",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            description = "Longest stall allowed: 1250ms.")
    @Nullable
    Double longestStallS;

    @Option(
            names = "--close-time",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            description = "Longest time allowed from stop to safe to unplug: 15s.")
    @Nullable
    Double closeS;

    /** The values given. */
    public SessionOverrides overrides() {
        return SessionOverrides.builder()
                .tracks(tracks)
                .sampleRateHz(sampleRate)
                .format(wordLength)
                .lengthS(whole(lengthS, 1, "--length", "s"))
                .layout(layout)
                .chunkBytes(chunkBytes)
                .arrival(arrival)
                .writers(writers)
                .flushS(flushS)
                .bufferS(bufferS)
                .fileLimitBytes(fileLimitBytes)
                .fileSystems(fileSystems)
                .stallLimitMs(whole(stallLimitS, 1000, "--stall-limit", "ms"))
                .marginBuffer(bufferMargin)
                .marginRate(rateMargin)
                .marginPort(portMargin)
                .marginPlayback(playbackMargin)
                .longestStallMs(whole(longestStallS, 1000, "--longest-stall", "ms"))
                .closeMs(whole(closeS, 1000, "--close-time", "ms"))
                .build();
    }

    private static @Nullable Long whole(@Nullable Double seconds, int perSecond, String option, String unit) {
        if (seconds == null) {
            return null;
        }
        double amount = seconds * perSecond;
        if (Math.abs(amount - Math.rint(amount)) > 1e-6 || amount > 1e15) {
            throw Complaint.usage(option + " takes whole " + unit + ", not " + amount + " " + unit, "round it");
        }
        return Math.round(amount);
    }
}
