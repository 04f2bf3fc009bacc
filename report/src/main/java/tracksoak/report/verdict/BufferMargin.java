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
    public Finding judge(Evidence e) {
        double need = e.session.margins().buffer();
        Draft draft = new Draft(CriterionId.BUFFER_MARGIN, "at least " + Units.factor(need), need, "×");
        if (e.session.kind() == SessionKind.MIXDOWN) {
            return mix(draft, e, need);
        }
        draft.spoilt(e.slept(e.takes.stream()));
        if (e.takes.isEmpty()) {
            return draft.open("Not tested: the run made no take.");
        }
        if (e.lostAudio() && e.bufferMs() > e.runBufferMs()) {
            return draft.open("Not tested: the run lost audio with a smaller buffer. Run again with this session.");
        }
        double peakMs = e.takes.stream().mapToDouble(p -> peakMs(p, e)).max().orElse(0);
        double have = margin(e, peakMs);
        Blame blame = e.takes.stream()
                .map(p -> Blame.of(
                        p,
                        e.ioMode(),
                        margin(e, peakMs(p, e)) < need,
                        margin(e, peakMs(p, e) - p.peakBacklogHostMs()) < need))
                .reduce(Blame.NOBODY, Blame::worse);
        draft.measured(Units.factor(have) + " (" + Units.ms(peakMs) + " behind at most)", Math.min(have, 1000))
                .margin(have);
        String fact = Units.ms(peakMs) + " behind; " + held(e, have);
        return draft.judged(
                blame,
                e.carry,
                e.takesDone(),
                "The drive was never more than " + fact + ".",
                "The drive fell " + fact + ", and " + Units.factor(need) + " is needed.");
    }

    private static Finding mix(Draft draft, Evidence e, double need) {
        MixBooks books = MixBooks.of(e);
        if (books == null) {
            return draft.open("Not tested: the run wrote no mix.");
        }
        MixFacts mix = books.mix();
        double peakMs = mix.lostMs() > 0 ? Math.max(mix.peakBacklogMs(), e.runBufferMs()) : mix.peakBacklogMs();
        double have = margin(e, peakMs);
        draft.measured(Units.factor(have) + " (" + Units.ms(peakMs) + " behind at most)", Math.min(have, 1000))
                .margin(have)
                .spoilt(e.slept(Stream.of(books.phase())));
        String fact = Units.ms(peakMs) + " behind; " + held(e, have);
        return draft.judged(
                Blame.of(books.phase(), e.ioMode(), have < need, margin(e, peakMs - mix.peakBacklogHostMs()) < need),
                e.carry,
                books.phase().complete(),
                "The mix was never more than " + fact + ".",
                "The mix fell " + fact + ", and " + Units.factor(need) + " is needed.");
    }

    /** Where audio was dropped the backlog was cut off at the buffer: it was at least that. */
    private static double peakMs(PhaseFacts take, Evidence e) {
        return take.lostMs() > 0 ? Math.max(take.peakBacklogMs(), e.runBufferMs()) : take.peakBacklogMs();
    }

    private static String held(Evidence e, double have) {
        return "the buffer holds " + Units.seconds(e.session.bufferS()) + ", " + Units.factor(have) + " as much";
    }

    private static double margin(Evidence e, double peakMs) {
        return peakMs <= 0 ? Double.POSITIVE_INFINITY : e.bufferMs() / peakMs;
    }
}
