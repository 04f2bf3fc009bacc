package tracksoak.report.verdict;

import java.util.stream.Stream;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.MixFacts;
import tracksoak.report.record.facts.PhaseFacts;

/** Buffer ÷ largest backlog over the takes. */
final class BufferMargin implements Rule {

    @Override
    public Finding judge(JudgedRun run) {
        double need = run.session.margins().buffer();
        FindingDraft draft = new FindingDraft(CriterionId.BUFFER_MARGIN, "at least " + Units.factor(need), need, "×");
        if (run.session.kind() == SessionKind.MIXDOWN) {
            return mix(draft, run, need);
        }
        draft.spoilt(run.slept(run.takes.stream()));
        if (run.takes.isEmpty()) {
            return draft.open("Not tested: the run made no take.");
        }
        if (run.lostAudio() && run.bufferMs() > run.runBufferMs()) {
            return draft.open("Not tested: the run lost audio with a smaller buffer. Run again with this session.");
        }
        double peakMs =
                run.takes.stream().mapToDouble(p -> peakMs(p, run)).max().orElse(0);
        double have = margin(run, peakMs);
        Blame blame = run.takes.stream()
                .map(p -> Blame.of(
                        p,
                        run,
                        margin(run, peakMs(p, run)) < need,
                        ms -> margin(run, peakMs(p, run) - Blame.hostMs(p, p.peakBacklogHostMs()) - ms) < need,
                        margin(run, peakMs(p, run) + p.lostMs() - Blame.detourMs(p, run.ioMode())) < need))
                .reduce(Blame.NOBODY, Blame::worse);
        draft.measured(Units.factor(have) + " (" + Units.ms(peakMs) + " behind at most)", Math.min(have, 1000))
                .margin(have);
        String fact = Units.ms(peakMs) + " behind; " + held(run, have);
        return draft.judged(
                blame,
                run.carry,
                run.takesDone(),
                "The drive was never more than " + fact + ".",
                "The drive fell " + fact + ", and " + Units.factor(need) + " is needed.");
    }

    private static Finding mix(FindingDraft draft, JudgedRun run, double need) {
        MixBooks books = MixBooks.of(run);
        if (books == null) {
            return draft.open("Not tested: the run wrote no mix.");
        }
        MixFacts mix = books.mix();
        double peakMs = mix.lostMs() > 0 ? Math.max(mix.peakBacklogMs(), run.runBufferMs()) : mix.peakBacklogMs();
        double have = margin(run, peakMs);
        draft.measured(Units.factor(have) + " (" + Units.ms(peakMs) + " behind at most)", Math.min(have, 1000))
                .margin(have)
                .spoilt(run.slept(Stream.of(books.phase())));
        String fact = Units.ms(peakMs) + " behind; " + held(run, have);
        return draft.judged(
                Blame.of(
                        books.phase(),
                        run,
                        have < need,
                        ms -> margin(run, peakMs - Blame.hostMs(books.phase(), mix.peakBacklogHostMs()) - ms) < need,
                        margin(run, peakMs + mix.lostMs() - Blame.detourMs(books.phase(), run.ioMode())) < need),
                run.carry,
                books.phase().complete(),
                "The mix was never more than " + fact + ".",
                "The mix fell " + fact + ", and " + Units.factor(need) + " is needed.");
    }

    /** Where audio was dropped the backlog was cut off at the buffer: it was at least that. */
    private static double peakMs(PhaseFacts take, JudgedRun run) {
        return take.lostMs() > 0 ? Math.max(take.peakBacklogMs(), run.runBufferMs()) : take.peakBacklogMs();
    }

    private static String held(JudgedRun run, double have) {
        return "the buffer holds " + Units.seconds(run.session.bufferS()) + ", " + Units.factor(have) + " as much";
    }

    private static double margin(JudgedRun run, double peakMs) {
        return peakMs <= 0 ? Double.POSITIVE_INFINITY : run.bufferMs() / peakMs;
    }
}
