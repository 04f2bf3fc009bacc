package tracksoak.report.verdict;

import tracksoak.report.record.PhaseFacts;

/** Buffer ÷ largest backlog over the takes. */
final class BufferMargin implements Rule {

    @Override
    public Finding judge(Evidence e) {
        double need = e.session.margins().buffer();
        Draft draft = new Draft("buffer-margin", "at least " + Units.factor(need), need, "×");
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
        String behind = "The drive was never more than " + Units.ms(peakMs) + " behind, with "
                + Units.seconds(e.session.bufferS()) + " of buffer: " + Units.factor(have) + ".";
        return draft.judged(
                blame,
                e.carry,
                e.takesDone(),
                behind,
                "The drive fell " + Units.ms(peakMs) + " behind, with " + Units.seconds(e.session.bufferS())
                        + " of buffer: " + Units.factor(have) + ", and " + Units.factor(need) + " is asked.");
    }

    /** Where audio was dropped the backlog was cut off at the buffer: it was at least that. */
    private static double peakMs(PhaseFacts take, Evidence e) {
        return take.lostMs() > 0 ? Math.max(take.peakBacklogMs(), e.runBufferMs()) : take.peakBacklogMs();
    }

    private static double margin(Evidence e, double peakMs) {
        return peakMs <= 0 ? Double.POSITIVE_INFINITY : e.bufferMs() / peakMs;
    }
}
