package tracksoak.bench.phase.run;

import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.timeleft.WorkAhead;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/** Plays the files of a pass in real time. */
final class PlaybackStep implements Step {

    private final Bench bench;
    private final int pass;
    private final double seconds;
    private final int mixPass;
    private @Nullable PlaybackPhase playback;

    PlaybackStep(Bench bench, int pass, double seconds, int mixPass) {
        this.bench = bench;
        this.pass = pass;
        this.seconds = seconds;
        this.mixPass = mixPass;
    }

    @Override
    public PhaseKind kind() {
        return PhaseKind.PLAYBACK;
    }

    @Override
    public double expectedS(WorkAhead ahead) {
        ahead.leaves((double) Budget.mixBytes(bench.request.session(), seconds, bench.drive.roomUnitBytes()));
        return seconds;
    }

    @Override
    public PhaseFacts go() {
        PlaybackPhase now = new PlaybackPhase(bench, bench.onDrive.of(pass), seconds, mixPass);
        playback = now;
        StreamFiles mix = now.mixFiles();
        if (mix != null) {
            bench.onDrive.opens(mix);
        }
        return now.play();
    }

    /** Files of the mix. */
    StreamFiles mixFiles() {
        return Objects.requireNonNull(Objects.requireNonNull(playback).mixFiles());
    }

    /** Closes the files of the mix. */
    PhaseFacts close() {
        return Objects.requireNonNull(playback).close();
    }
}
