package tracksoak.bench.phase.run;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.Drive.Counters;
import tracksoak.bench.recorder.loop.InFlight;
import tracksoak.bench.recorder.loop.PlayerFigures;
import tracksoak.bench.recorder.loop.PlayerLedger;
import tracksoak.bench.recorder.loop.PlayerLoop;
import tracksoak.bench.recorder.loop.RecorderLedger;
import tracksoak.bench.recorder.loop.RecorderLoop;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.recorder.loop.TakeFigures;
import tracksoak.bench.recorder.watch.HostMonitor;
import tracksoak.bench.recorder.watch.HostWatch;
import tracksoak.bench.stream.AlignedBuffer;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.bench.stream.StreamReader;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.Latencies;
import tracksoak.report.record.facts.MixFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.PlaybackFacts;
import tracksoak.report.record.facts.StreamTotals;

/** Reads all tracks at once at session rate, in real time; in a mixdown the mix is written meanwhile. */
final class PlaybackPhase {

    private final Bench bench;
    private final Session session;
    private final StreamReader reader;
    private final StreamTable table;
    private final @Nullable StreamTable mixTable;
    private final @Nullable StreamFiles mixFiles;
    private @Nullable Playing playing;

    /**
     * A playback about to start.
     *
     * @param files of the pass that is played
     * @param seconds asked for; it is as long as the files allow, if that is less
     * @param mixPass pass of the files of the mix
     */
    PlaybackPhase(Bench bench, List<WrittenFile> files, double seconds, int mixPass) {
        this.bench = bench;
        this.session = bench.request.session();
        int streams = bench.streams().size();
        this.reader = new StreamReader(bench.drive, files, streams);
        double there = IntStream.range(0, streams)
                .mapToDouble(
                        i -> reader.bytes(i) / (double) bench.streams().get(i).bytesPerSecond())
                .min()
                .orElse(0);
        double length = Math.min(seconds, there);
        this.table = bench.table(length);
        boolean mixes = !session.mixStreams().isEmpty();
        this.mixTable = mixes ? bench.mixTable(length) : null;
        this.mixFiles = mixes ? bench.mixFiles("mix", mixPass) : null;
    }

    /** Files of the mix, null where none is written. */
    @Nullable
    StreamFiles mixFiles() {
        return mixFiles;
    }

    /** Plays; what is left of the mix is still to be written by {@link #close}. */
    PhaseFacts play() {
        PhaseFacts.Builder notes = bench.notes(PhaseKind.PLAYBACK);
        notes.plannedSeconds(table.lengthNs() / 1e9);
        long openedNs = bench.clock.nanoTime();
        WatchedExecutor.Outcome opened = bench.executor.work(List.of(this::openFiles), () -> {});
        if (!opened.done()) {
            notes.seconds((bench.clock.nanoTime() - openedNs) / 1e9);
            notes.fault(bench.fault(opened, openedNs, 0));
            letGo();
            return notes.build();
        }
        try (HostMonitor host = bench.monitor()) {
            Optional<Counters> before = bench.drive.counters();
            Playing now = new Playing(host);
            playing = now;
            WatchedExecutor.Outcome outcome =
                    bench.executor.work(now.jobs(), () -> bench.tell(now::now, () -> now.soFar(notes)));
            now.end(outcome);
            notes.complete(outcome.done());
            notes.fault(bench.fault(outcome, now.startNs, 0));
            long bytes = now.player.figures(now.endNs).books().totals().writtenBytes();
            DeviceEvidence evidence = bench.evidence(before, mixTable == null ? bytes : bytes + now.mixBytes());
            notes.device(evidence);
            now.note(notes, evidence);
            letGo();
            return notes.build();
        }
    }

    /** From "stop" to "safe to unplug", for the files of the mix. */
    PhaseFacts close() {
        Playing played = playing;
        StreamFiles files = mixFiles;
        if (played == null || files == null) {
            throw new IllegalStateException("there is no mix to close");
        }
        return ClosePhase.close(bench, files, played.overhangNs, played.mixLoops.get(0)::drain, played::mixTotals);
    }

    private void openFiles(BooleanSupplier stop) throws IOException {
        bench.drive.forgetCached();
        for (int stream = 0; stream < table.streams() && !stop.getAsBoolean(); stream++) {
            reader.begin(stream, 0);
        }
        StreamFiles mix = mixFiles;
        for (int stream = 0; mix != null && stream < mix.streams() && !stop.getAsBoolean(); stream++) {
            mix.begin(stream);
        }
    }

    private void letGo() {
        if (!bench.hangs()) {
            bench.executor.work(List.of(stop -> reader.letGo()), () -> {});
        }
    }

    /** The playback while it goes on. */
    private final class Playing {
        private final HostMonitor host;
        private final long startNs;
        private final PlayerLedger player;
        private final @Nullable RecorderLedger mix;
        private final List<RecorderLoop> mixLoops;
        private final List<PlayerLoop> loops;
        private long endNs;
        private long overhangNs;

        private Playing(HostMonitor host) {
            this.host = host;
            this.startNs = RealTime.startNs(bench);
            HostWatch watch = bench.virtual ? HostWatch.NONE : host.since(startNs);
            long stallNs = TimeUnit.MILLISECONDS.toNanos(session.stallLimitMs());
            InFlight inFlight = new InFlight(table.lengthNs());
            this.player = new PlayerLedger(table, stallNs, watch, inFlight);
            StreamTable written = mixTable;
            StreamFiles files = mixFiles;
            RecorderLedger books = written == null ? null : new RecorderLedger(written, stallNs, watch, inFlight);
            this.mix = books;
            int sharing = RealTime.loops(bench, table);
            this.mixLoops = written == null || files == null || books == null
                    ? List.of()
                    : RealTime.recorders(
                            RealTime.stampers(sharing, bench, written), bench, books, written, files, host, startNs);
            this.loops = IntStream.range(0, sharing)
                    .mapToObj(reading -> new PlayerLoop(
                            player,
                            table,
                            reader,
                            AlignedBuffer.allocate(table.largestChunkBytes(), bench.drive.alignmentBytes()),
                            books == null ? null : new PlayerLoop.Mix(books, mixLoops.get(reading)),
                            bench.clock,
                            host.ownDelays(),
                            bench.drive.alignmentBytes(),
                            startNs))
                    .toList();
        }

        private List<WatchedExecutor.Job> jobs() {
            return loops.stream().map(this::job).toList();
        }

        private WatchedExecutor.Job job(PlayerLoop loop) {
            return stop -> {
                while (!stop.getAsBoolean()) {
                    long due = loop.step();
                    if (due == PlayerLoop.OVER) {
                        return;
                    }
                    RealTime.rest(bench, due);
                }
            };
        }

        private void end(WatchedExecutor.Outcome outcome) {
            endNs = Math.max(0, sinceStart());
            if (outcome.stuck() != null) {
                long calledNs = outcome.stuck().sinceNs() - startNs;
                player.abandon(calledNs, endNs);
                if (mix != null) {
                    mix.abandon(calledNs, endNs);
                }
                return;
            }
            player.settle(endNs);
            if (mix != null) {
                mix.settle(endNs);
            }
            overhangNs = Math.max(0, endNs - table.lengthNs());
            endNs -= overhangNs;
        }

        private long sinceStart() {
            return bench.clock.nanoTime() - startNs;
        }

        private TakeFigures.Totals mixTotals() {
            RecorderLedger books = mix;
            if (books == null) {
                throw new IllegalStateException("there is no mix");
            }
            return books.figures(Math.max(0, sinceStart())).totals();
        }

        private long mixBytes() {
            return mix == null ? 0 : mixTotals().writtenBytes();
        }

        private Bench.Now now() {
            long sinceNs = Math.max(0, sinceStart());
            return RealTime.now(sinceNs, table.lengthNs() / 1e9, player.glance(sinceNs));
        }

        private PhaseFacts soFar(PhaseFacts.Builder notes) {
            endNs = Math.max(0, sinceStart());
            player.settle(endNs);
            if (mix != null) {
                mix.settle(endNs);
            }
            note(notes, null);
            return notes.build();
        }

        private void note(PhaseFacts.Builder notes, @Nullable DeviceEvidence evidence) {
            PlayerFigures figures = player.figures(endNs);
            RecorderLedger books = mix;
            TakeFigures written = books == null ? null : books.figures(endNs);
            PacedNotes.paced(notes, table, figures.books(), endNs);
            notes.streams(new StreamTotals(
                    figures.books().doneBytes(),
                    figures.books().lostMs(),
                    figures.books().peakBacklogMs(),
                    IntStream.range(0, table.streams()).mapToObj(reader::files).toList()));
            notes.playback(new PlaybackFacts(
                    session.bufferS(),
                    figures.underruns(),
                    figures.books().worstLostMs(),
                    PacedNotes.lostTrackMs(table, figures.books()),
                    figures.leastHeldMs(),
                    ReadOrigin.origin(bench, evidence, figures.books().totals().writtenBytes()),
                    written == null ? null : mixFacts(written)));
            notes.hostDelays(host.facts());
        }

        private MixFacts mixFacts(TakeFigures written) {
            List<Double> lost = written.lostMs();
            int hit = IntStream.range(0, lost.size())
                    .filter(i -> lost.get(i) > 0)
                    .map(i -> session.mixStreams().get(i).tracks())
                    .sum();
            return new MixFacts(
                    written.totals().writtenBytes(),
                    written.worstLostMs(),
                    hit,
                    written.totals().peakMs(),
                    written.totals().peakHostNs() / 1e6,
                    written.overruns(),
                    Latencies.of(written.histograms().service()));
        }
    }
}
