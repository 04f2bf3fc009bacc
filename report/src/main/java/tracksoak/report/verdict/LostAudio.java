package tracksoak.report.verdict;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.Overrun;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/** No audio may be lost in takes and close, nor may the drive stop answering while it is written. */
final class LostAudio implements Rule {

    @Override
    public Finding judge(JudgedRun run) {
        FindingDraft draft = new FindingDraft(CriterionId.LOST_AUDIO, "none", 0.0, "ms");
        Optional<PhaseFacts> stopped = writing(run).filter(LostAudio::stopped).findFirst();
        if (stopped.isPresent()) {
            return stopped(draft, run, stopped.get());
        }
        if (run.session.kind() == SessionKind.MIXDOWN) {
            return mix(draft, run);
        }
        draft.spoilt(run.slept(run.takes.stream()));
        double lostMs = recording(run).mapToDouble(PhaseFacts::lostMs).max().orElse(0);
        if (lostMs > 0 && run.bufferMs() > run.runBufferMs()) {
            return draft.measured(FindingDraft.NOT_TESTED, null)
                    .open("The run lost audio with a buffer of "
                            + Units.seconds(run.record.session().bufferS())
                            + "; whether one of " + Units.seconds(run.session.bufferS())
                            + " would have held is not tested: run again with this session.");
        }
        double overMs =
                run.takes.stream().mapToDouble(PhaseFacts::peakBacklogMs).max().orElse(0) - run.bufferMs();
        if (lostMs == 0 && overMs > 0) {
            return smallerBuffer(draft, run, overMs);
        }
        if (lostMs > 0) {
            return lost(draft, run, lostMs);
        }
        String none = run.takes.isEmpty() ? FindingDraft.NOT_TESTED : "none in " + Units.seconds(run.takeSeconds());
        draft.measured(none, run.takes.isEmpty() ? null : (Double) 0.0);
        return draft.judged(Blame.NOBODY, run.carry, run.takesDone(), "No audio was lost.", "");
    }

    private static Finding mix(FindingDraft draft, JudgedRun run) {
        MixBooks books = MixBooks.of(run);
        if (books == null) {
            return draft.open("Not tested: the run wrote no mix.");
        }
        double lostMs = books.mix().lostMs();
        String seconds = Units.seconds(books.phase().seconds());
        draft.measured(lostMs > 0 ? Units.ms(lostMs) + " on the worst track" : "none in " + seconds, lostMs)
                .spoilt(run.slept(Stream.of(books.phase())));
        return draft.judged(
                Blame.of(
                        books.phase(),
                        run,
                        lostMs > 0,
                        books::lostWithoutHost,
                        lostMs > Blame.detourMs(books.phase(), run.ioMode())),
                run.carry,
                books.phase().complete(),
                "No audio of the mix was lost.",
                "Audio of the mix was lost: " + Units.ms(lostMs) + " on its worst track, as the drive fell "
                        + Units.seconds(run.runBufferMs() / 1000) + " behind while all tracks were read.");
    }

    private static Finding lost(FindingDraft draft, JudgedRun run, double lostMs) {
        int tracks = recording(run).mapToInt(PhaseFacts::tracksHit).max().orElse(0);
        Blame blame = recording(run)
                .map(p -> Blame.of(
                        p,
                        run,
                        p.lostMs() > 0,
                        ms -> lostWithoutHost(p, ms),
                        p.lostMs() > Blame.detourMs(p, run.ioMode())))
                .reduce(Blame.NOBODY, Blame::worse);
        draft.measured(Units.ms(lostMs) + " on the worst track", lostMs);
        return draft.judged(
                blame,
                run.carry,
                true,
                "",
                "Audio was lost: " + Units.ms(lostMs) + (tracks == 1 ? "" : " on the worst of " + tracks + " tracks")
                        + ", as the drive fell "
                        + Units.seconds(run.runBufferMs() / 1000) + " behind.");
    }

    private static Finding smallerBuffer(FindingDraft draft, JudgedRun run, double overMs) {
        Blame blame = run.takes.stream()
                .map(p -> Blame.of(
                        p,
                        run,
                        p.peakBacklogMs() > run.bufferMs(),
                        ms -> p.peakBacklogMs() - Blame.hostMs(p, p.peakBacklogHostMs()) - ms > run.bufferMs(),
                        p.peakBacklogMs() - Blame.detourMs(p, run.ioMode()) > run.bufferMs()))
                .reduce(Blame.NOBODY, Blame::worse);
        draft.measured("about " + Units.ms(overMs), overMs);
        return draft.judged(
                blame,
                run.carry,
                true,
                "",
                "Audio would be lost: the drive fell " + Units.ms(overMs) + " further behind than a buffer of "
                        + Units.seconds(run.session.bufferS()) + " holds.");
    }

    private static Finding stopped(FindingDraft draft, JudgedRun run, PhaseFacts phase) {
        Fault fault = Objects.requireNonNull(phase.fault());
        String during = "the " + Doubts.name(phase);
        String when = Units.seconds(fault.atS()) + " into " + during;
        String words = switch (fault.kind()) {
            case HUNG -> "The drive stopped answering " + when + ": everything after that is lost.";
            case GONE ->
                "The drive left the computer " + when
                        + ": everything after that is lost. It was being written, so have it checked or format it in"
                        + " the recorder; if somebody pulled it, run again then.";
            case READ_ONLY -> "The drive became read-only " + when + ": everything after that is lost.";
            default -> "The drive gave an error " + when + ": everything after that is lost.";
        };
        draft.measured("all after " + Units.seconds(fault.atS()) + " of " + during, null);
        if (Blame.slept(phase.hostDelays())) {
            return draft.judged(Blame.HOST, run.carry, true, "", words);
        }
        // a drive that stops answering fails whatever it was asked to carry
        return draft.missed(words);
    }

    /** Whether audio is lost even if every delay of the host inside the overruns, and so many ms more, had not been. */
    static boolean lostWithoutHost(PhaseFacts phase, double ms) {
        return lostWithoutHost(phase, phase.overruns(), phase.lostMs(), ms);
    }

    /** The same of other books of a phase. */
    static boolean lostWithoutHost(PhaseFacts phase, List<Overrun> overruns, double lostMs, double ms) {
        if (Doubts.overloaded(phase)) {
            return lostMs > Blame.hostMs(phase) + ms;
        }
        double listed = overruns.stream().mapToDouble(Overrun::lostMs).sum();
        boolean one = overruns.stream().anyMatch(overrun -> overrun.lostMs() > overrun.hostMs() + ms);
        return one || lostMs - listed > Blame.hostMs(phase) + ms;
    }

    static boolean stopped(PhaseFacts phase) {
        Fault fault = phase.fault();
        return fault != null && fault.kind().ofTheDrive();
    }

    private static Stream<PhaseFacts> recording(JudgedRun run) {
        return Stream.concat(run.takes.stream(), run.phases(PhaseKind.CLOSE));
    }

    private static Stream<PhaseFacts> writing(JudgedRun run) {
        // probes without a read-back are those that were being laid
        return run.record.phases().stream().filter(phase -> switch (phase.kind()) {
            case TAKE, FILL, COPY, CLOSE -> true;
            case PROBES -> phase.readBack() == null;
            case READ_BACK, PLAYBACK, KEEPSAKE -> false;
        });
    }
}
