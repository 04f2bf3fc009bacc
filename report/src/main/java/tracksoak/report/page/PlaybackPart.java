package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.ChartView;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.MixFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PlaybackFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Series;

/** What all tracks played at once found; empty where nothing was played. */
final class PlaybackPart implements Part {

    @Override
    public Section of(RunRecord record, List<ChartData> charts) {
        List<Block> blocks = new ArrayList<>();
        double silentMs = 0;
        for (int i = 0; i < record.phases().size(); i++) {
            PhaseFacts phase = record.phases().get(i);
            PlaybackFacts facts = phase.playback();
            if (facts != null) {
                silentMs = Math.max(silentMs, phase.lostMs());
                blocks.add(Prose.of(outcome(phase, facts)));
                blocks.add(
                        Prose.of(
                                "All tracks are read at once. The player starts with its buffer full and asks for the next chunk of"
                                        + " a track as soon as there is room for it; a track is silent while its chunk is late."));
                if (i != Worst.phase(record)) {
                    chart(record, i, blocks, charts);
                }
                blocks.add(facts(phase, facts));
                MixFacts mix = facts.mix();
                if (mix != null) {
                    blocks.add(mix(mix));
                }
            }
        }
        return new Section(
                "playback",
                "Playback",
                silentMs > 0 ? "Tracks fell silent while all were read at once" : "All tracks were read at once",
                silentMs > 0 ? Units.ms(silentMs) + " of silence" : "no silence",
                blocks);
    }

    static void chart(RunRecord record, int index, List<Block> blocks, List<ChartData> charts) {
        PhaseFacts phase = record.phases().get(index);
        Series series = phase.series();
        if (series == null || series.length() == 0) {
            blocks.add(Prose.of("The playback ended before its first second, so there is no curve."));
            return;
        }
        double[] lacking = series.maxBacklogMs().stream().asDoubleStream().toArray();
        double[] host = series.hostDelayMs().stream().asDoubleStream().toArray();
        String buffer = Units.seconds(record.session().bufferS());
        String id = "chart-playback-" + index;
        charts.add(BacklogPart.data(
                id,
                phase,
                List.of(new ChartData.Level(
                        "buffer", "buffer " + buffer, record.session().bufferS() * 1000)),
                lacking,
                null));
        List<ChartView.Key> key = new ArrayList<>();
        key.add(new ChartView.Key("backlog", false, "most that any track's buffer lacked in each second"));
        key.add(new ChartView.Key("buffer", false, "the player's buffer: empty there"));
        if (!phase.stalls().isEmpty()) {
            key.add(new ChartView.Key("stall", true, "stall (height = how long)"));
        }
        if (!phase.overruns().isEmpty()) {
            key.add(new ChartView.Key("overrun", true, "a track fell silent"));
        }
        blocks.add(new ChartView(
                id,
                "What a track's buffer lacked",
                "Line chart: the most that any track's buffer lacked in each second of the playback, against a buffer of "
                        + buffer,
                Shown.whole("At worst a buffer of " + buffer + " lacked " + Units.ms(phase.peakBacklogMs()) + ", "
                        + Units.seconds(phase.peakBacklogAtS()) + " into the playback."),
                key,
                BacklogPart.table("Playback", lacking, host)));
    }

    /** The sentence that comes first. */
    private static String outcome(PhaseFacts phase, PlaybackFacts facts) {
        String tracks = phase.lostMs() > 0
                ? "Tracks fell silent " + Count.of(facts.underruns(), "time") + " in " + Units.seconds(phase.seconds())
                        + ": " + Units.ms(phase.lostMs()) + " on the worst of them."
                : "No track fell silent in " + Units.seconds(phase.seconds()) + ".";
        MixFacts mix = facts.mix();
        return mix == null
                ? tracks
                : tracks
                        + (mix.lostMs() > 0
                                ? " Of the mix written meanwhile " + Units.ms(mix.lostMs())
                                        + " was lost on its worst track."
                                : " Nothing of the mix written meanwhile was lost.");
    }

    private static Facts facts(PhaseFacts phase, PlaybackFacts facts) {
        return Facts.about("What the playback found")
                .row("Played", Units.seconds(phase.seconds()) + " of " + Units.seconds(phase.plannedSeconds()))
                .row("Read", Units.bytes(phase.bytes()))
                .row("The player's buffer", Units.seconds(facts.readerBufferS()) + " per track")
                .row("Times a track ran dry", Count.number(facts.underruns()))
                .row("Silence on the worst track", Units.ms(facts.silentMs()))
                .row("Silence of all tracks", Units.ms(facts.silentTrackMs()))
                .row("Least audio held when a chunk arrived", Units.ms(facts.leastHeldMs()))
                .row("Drive busy", Units.percent(phase.busyFraction()))
                .row(
                        "The bytes came from",
                        switch (facts.fromDevice()) {
                            case DEVICE -> "the drive, by its own counters";
                            case HOST_MEMORY -> "the computer's memory, at least in part: they prove nothing";
                            case UNKNOWN -> "not known: the system has no counters for this drive";
                        })
                .build();
    }

    private static Facts mix(MixFacts mix) {
        return Facts.about("The mix written meanwhile")
                .row("Written", Units.bytes(mix.bytes()))
                .row("Largest backlog", Units.ms(mix.peakBacklogMs()))
                .row("Lost on the worst track", Units.ms(mix.lostMs()))
                .build();
    }
}
