package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.RecorderBuffer;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.TrackGroup;
import tracksoak.report.record.PhaseSketch;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.KeepsakeFacts;
import tracksoak.report.record.facts.MixFacts;
import tracksoak.report.record.facts.Overrun;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.PlaybackFacts;
import tracksoak.report.record.facts.ReadBackFacts.Origin;
import tracksoak.report.record.facts.ReadyFacts;
import tracksoak.report.record.facts.RoundsFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Stall;
import tracksoak.report.verdict.Judge;

/** Records with the parts that only a whole show, a keepsake or a mixdown has; invented, judged as any other. */
final class WholeShow {

    private static final long GB = 1_000_000_000L;

    private WholeShow() {}

    /** A drive waited for, a keepsake read, all room filled, a take in rounds, played at the end; a keepsake left. */
    static RunRecord recorded() {
        RunSketch run = RunSketch.good();
        run.startedAt = "2026-03-20T17:00:00Z";
        run.tag = "props box 2";
        run.session = run.session
                .but()
                .bufferAssumed(false)
                .about(RecorderBuffer.sentence(
                        1_795_867_200_000L,
                        "held 2 s of audio 4 times, lost audio at 2.1 s",
                        14,
                        "0123456789abcdef".repeat(4)))
                .build();
        run.ready = new ReadyFacts(12.4, 3.1, 4.6, true);
        run.plan = new PlanFacts(
                "full-show", false, 0, 86_400, 10_800, 60, 250 * GB, null, true, 0, 0, 120, 200_000_000L, "");
        run.phases = new ArrayList<>(List.of(
                keepsake(),
                fill(40e6, 60 * GB),
                PhaseSketch.readBack(60 * GB),
                take(),
                PhaseSketch.close(),
                PhaseSketch.readBack(30 * GB),
                playback(0, null)));
        return judged(run);
    }

    /** 32 tracks copied on and played while a stereo mix is written: they fall silent twice, and some of the mix is lost. */
    static RunRecord mixedDown() {
        RunSketch run = RunSketch.good();
        run.session = mixdown();
        run.plan = new PlanFacts("line-check", false, 0, 0, 0, 0, 2 * GB, null, false, 120, 86_400, 120, 0, "");
        PhaseSketch copy = fill(38e6, 600_000_000L);
        copy.kind = PhaseKind.COPY;
        run.phases = new ArrayList<>(List.of(
                copy,
                PhaseSketch.readBack(600_000_000L),
                playback(
                        740,
                        new MixFacts(
                                34_000_000L,
                                310,
                                2,
                                2000,
                                0,
                                List.of(new Overrun(61.2, 310, 2, 0)),
                                PhaseSketch.latency(9))),
                PhaseSketch.close(),
                PhaseSketch.readBack(34_000_000L)));
        return judged(run);
    }

    private static Session mixdown() {
        Session like = RunSketch.session("barn-mix", 32, SessionKind.MIXDOWN, 3 * 3600, 2);
        return RunSketch.titled(
                like,
                "Barn theatre, 32 tracks mixed down to two",
                like.about(),
                List.of(new TrackGroup(2, 48_000, SampleFormat.PCM_24)));
    }

    private static PhaseSketch keepsake() {
        PhaseSketch phase = PhaseSketch.readBack(200_000_000L);
        phase.kind = PhaseKind.KEEPSAKE;
        phase.keepsake = new KeepsakeFacts(
                "017f22e2-79b0-7cc3-98c4-dc0c0c073900", "2026-02-14T18:50:00Z", 33.9, 200_000_000L, 4, 0, true);
        return phase;
    }

    private static PhaseSketch fill(double rate, long bytes) {
        PhaseSketch phase = PhaseSketch.fill((double) bytes / rate, rate);
        phase.series = Objects.requireNonNull(
                OtherPhases.fill(21, (int) (bytes / rate), rate * 1.02, rate * 1.02, Long.MAX_VALUE, null)
                        .series());
        FillFacts fill = Objects.requireNonNull(phase.fill);
        phase.fill = new FillFacts(
                FillFacts.Ended.FULL,
                true,
                fill.roundS(),
                fill.roundsBytesPerSecond(),
                fill.floorBytesPerSecond(),
                fill.floorWindowS(),
                null,
                null,
                null,
                bytes);
        return phase;
    }

    private static PhaseSketch take() {
        PhaseSketch phase = PhaseSketch.take(10_800, RunSketch.DEMAND);
        phase.series =
                new TakeMaker(22, "2026-03-20T18:00:00Z", 600, 600, 60).make().series();
        phase.rounds = new RoundsFacts(31 * GB, 128, 19 * GB, 840);
        return phase;
    }

    private static PhaseSketch playback(double silentMs, @Nullable MixFacts mix) {
        PhaseSketch phase = PhaseSketch.take(120, RunSketch.DEMAND);
        phase.kind = PhaseKind.PLAYBACK;
        TakeMaker maker = new TakeMaker(23, "2026-03-20T21:10:00Z", 120, 120, 400);
        PhaseFacts like = (silentMs > 0 ? maker.stall(60.4, 2450).stall(88.1, 1900) : maker).make();
        phase.series = like.series();
        phase.peakBacklogMs = silentMs > 0 ? 2000 : 840;
        phase.lostMs = silentMs;
        phase.lostTrackMs = silentMs * 20;
        phase.tracksHit = silentMs > 0 ? 28 : 0;
        if (silentMs > 0) {
            phase.stalls.add(new Stall(60.4, 2450, 0));
            phase.stalls.add(new Stall(88.1, 1900, 0));
            phase.overruns.add(new Overrun(62.1, silentMs, 28, 0));
        }
        long written = mix == null ? 0 : mix.bytes();
        phase.device = new DeviceEvidence(written, phase.bytes, phase.bytes + written);
        phase.playback = new PlaybackFacts(
                2, silentMs > 0 ? 56 : 0, silentMs, silentMs * 20, silentMs > 0 ? 0 : 1160, Origin.DEVICE, mix);
        return phase;
    }

    private static RunRecord judged(RunSketch sketch) {
        RunRecord facts = sketch.record();
        return facts.withVerdict(Judge.judge(sketch.session, facts));
    }
}
