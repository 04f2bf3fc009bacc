package tracksoak.report.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.params.provider.Arguments.arguments;
import static tracksoak.report.record.facts.Verdict.Outcome.FAIL;
import static tracksoak.report.record.facts.Verdict.Outcome.NO_VERDICT;
import static tracksoak.report.record.facts.Verdict.Outcome.PASS;

import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import tracksoak.profiles.Demand;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.FileSystemShape;
import tracksoak.profiles.SessionKind;
import tracksoak.report.record.PhaseSketch;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.CloseFacts;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.FillFacts.Ended;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.IntColumn;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.KeepsakeFacts;
import tracksoak.report.record.facts.Overrun;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.ReadBackFacts.Origin;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Series;
import tracksoak.report.record.facts.Stall;
import tracksoak.report.record.facts.Verdict;

/**
 * Every rule at, below and above its limit, and every cause of no verdict. The good run asks: margins of 2×, stalls of at
 * most 1 s, close within 10 s; buffer 2 s; demand 4.608 MB/s (32 tracks at 48 kHz/24-bit).
 */
class JudgeRulesTest {

    private static final long ROOM = Demand.of(RunSketch.session("barn-32", 32))
            .roomOn(FileSystemShape.of("exfat", 131_072))
            .totalBytes();

    @ParameterizedTest(name = "{0}")
    @MethodSource({"limits", "integrity", "faults", "fills", "outside", "neighbours", "detours", "missing"})
    void rule(
            String what,
            Consumer<RunSketch> change,
            Verdict.Outcome outcome,
            String id,
            @Nullable Boolean met,
            boolean byHost) {
        RunSketch run = RunSketch.good();
        change.accept(run);
        Verdict verdict = Judge.judge(run.record());
        Criterion criterion = JudgeTest.criterion(verdict, id);
        assertThat(criterion.met()).as("%s: %s", id, criterion.sentence()).isEqualTo(met);
        assertThat(criterion.decidedByHost()).isEqualTo(byHost);
        assertThat(verdict.outcome()).as("%s", verdict).isEqualTo(outcome);
        assertThat(verdict.reasons().isEmpty()).isEqualTo(outcome != NO_VERDICT);
    }

    /** Of 100 blocks. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            0 | 8 | 92 | 8 of 100 blocks bad, 92 not read | 8 blocks unreadable, and the other 92 were not read; none came back as written.
            0 | 99 | 1 | 99 of 100 blocks bad, 1 not read | 99 blocks unreadable, and the other 1 was not read; none came back as written.
            2 | 8 | 90 | 10 of 100 blocks bad, 90 not read | 2 blocks flipped, 8 blocks unreadable, and the other 90 were not
            0 | 8 | 50 | 8 of 100 blocks bad, 50 not read | 8 blocks unreadable, and 50 more were not read. Never
            0 | 8 | 0  | 8 of 100 blocks bad              | 8 blocks unreadable. Never
            0 | 100 | 0 | 100 of 100 blocks bad           | 100 blocks unreadable. Never
            """)
    void whatWasNotReadIsSaidBesideWhatWasBad(
            long flipped, long unreadable, long unread, String measured, String sentence) {
        RunSketch run = RunSketch.good();
        blocks(run, 0, 0, 0, flipped, unreadable, unread, Origin.DEVICE);
        Criterion intact = JudgeTest.criterion(Judge.judge(run.record()), "intact");
        assertThat(intact.measured()).isEqualTo(measured);
        assertThat(intact.sentence()).contains(sentence);
    }

    @Test
    void whatWasNotReadOfTheBlocksLaidOverTheRoomIsSaidToo() {
        RunSketch run = RunSketch.good();
        probes(run, true);
        PhaseSketch probes = run.phase(PhaseKind.PROBES);
        probes.readBack = new ReadBackFacts(100, 50, 0, 0, 0, 0, 8, 42, Origin.DEVICE, List.of());
        assertThat(JudgeTest.criterion(Judge.judge(run.record()), "intact").sentence())
                .startsWith(
                        "Of 100 blocks laid over all the free room 8 did not come back, and 42 more were not read.");
    }

    @Test
    void whatWasNotReadOfAKeepsakeIsSaidToo() {
        RunSketch run = RunSketch.good();
        PhaseSketch kept = PhaseSketch.readBack(100 * 4096);
        kept.kind = PhaseKind.KEEPSAKE;
        kept.keepsake = new KeepsakeFacts("a", "2026-01-14T21:00:00Z", 60, 100 * 4096, 1, 0, true);
        kept.readBack = new ReadBackFacts(100, 0, 0, 0, 0, 0, 8, 92, Origin.DEVICE, List.of());
        run.phases.add(0, kept);
        assertThat(JudgeTest.criterion(Judge.judge(run.record()), "intact").sentence())
                .contains("8 of 100 blocks (8 unreadable, and the other 92 were not read; none came back as written).");
    }

    static Stream<Arguments> limits() {
        return Stream.of(
                of("lost 0 ms", r -> take(r).lostMs = 0, PASS, "lost-audio", true),
                of("lost 1 ms", r -> lose(take(r), 1), FAIL, "lost-audio", false),
                of("lost in the second take", r -> lose(r.phases.get(2), 5), FAIL, "lost-audio", false),
                of("lost in the close", r -> lose(r.phase(PhaseKind.CLOSE), 5), FAIL, "lost-audio", false),
                of("peak 950 ms", r -> take(r).peakBacklogMs = 950, PASS, "buffer-margin", true),
                of("peak 1000 ms", r -> take(r).peakBacklogMs = 1000, PASS, "buffer-margin", true),
                of("peak 1050 ms", r -> take(r).peakBacklogMs = 1050, FAIL, "buffer-margin", false),
                of("busy 0.475", r -> take(r).busyFraction = 0.475, PASS, "rate-margin", true),
                of("busy 0.5", r -> take(r).busyFraction = 0.5, PASS, "rate-margin", true),
                of("busy 0.525", r -> take(r).busyFraction = 0.525, FAIL, "rate-margin", false),
                of("mean +5 %", r -> mean(r, 2.1), PASS, "rate-margin", true),
                of("mean 2x", r -> mean(r, 2), PASS, "rate-margin", true),
                of("mean -5 %", r -> mean(r, 1.9), FAIL, "rate-margin", false),
                of("floor 2x", r -> floor(r, 2), PASS, "rate-margin", true),
                of("floor -5 %", r -> floor(r, 1.9), NO_VERDICT, "rate-margin", null),
                of(
                        "floor -5 %, settled by a whole session",
                        r -> {
                            floor(r, 1.9);
                            wholeTake(r);
                        },
                        PASS,
                        "rate-margin",
                        true),
                of("stall 950 ms", r -> stall(r, 950, 0), PASS, "longest-stall", true),
                of("stall 1000 ms", r -> stall(r, 1000, 0), PASS, "longest-stall", true),
                of("stall 1050 ms", r -> stall(r, 1050, 0), FAIL, "longest-stall", false),
                of(
                        "stall in the fill that the buffer holds beside a chunk",
                        r -> r.phases.get(1).stalls.add(new Stall(1, 544, 0)),
                        PASS,
                        "longest-stall",
                        true),
                of(
                        "stall in the fill beyond that",
                        r -> r.phases.get(1).stalls.add(new Stall(1, 545, 0)),
                        NO_VERDICT,
                        "longest-stall",
                        null),
                of(
                        "stall in the fill, settled by a whole session",
                        r -> {
                            r.phases.get(1).stalls.add(new Stall(1, 1_544, 0));
                            wholeTake(r);
                        },
                        PASS,
                        "longest-stall",
                        true),
                of(
                        "stall in the fill that would cost audio, met by luck or not",
                        r -> {
                            r.phases.get(1).stalls.add(new Stall(1, 1_546, 0));
                            wholeTake(r);
                        },
                        NO_VERDICT,
                        "longest-stall",
                        null),
                of(
                        "two of them, which no luck leaves out",
                        r -> {
                            r.phases.get(1).stalls.add(new Stall(1, 12_000, 0));
                            r.phases.get(1).stalls.add(new Stall(500, 12_000, 0));
                            wholeTake(r);
                        },
                        PASS,
                        "longest-stall",
                        true),
                of(
                        "long stall in the fill, of the host's making",
                        r -> r.phases.get(1).stalls.add(new Stall(1, 12_000, 11_500)),
                        PASS,
                        "longest-stall",
                        true),
                of("close 9.5 s", r -> close(r, 9_500), PASS, "close-time", true),
                of("close 10 s", r -> close(r, 10_000), PASS, "close-time", true),
                of("close 10.5 s", r -> close(r, 10_500), FAIL, "close-time", false),
                of("room +5 %", r -> r.freeBytes = ROOM + ROOM / 20, PASS, "room", true),
                of("room just", r -> r.freeBytes = ROOM, PASS, "room", true),
                of("room one byte short", r -> r.freeBytes = ROOM - 1, FAIL, "room", false),
                of("room unknown", r -> r.freeBytes = null, NO_VERDICT, "room", null),
                of("format fat32", r -> r.fileSystem = "FAT32", PASS, "format", true),
                of("files a FAT takes", r -> oneFile(r, "fat32", (1L << 32) - 1), PASS, "format", true),
                of("files that outgrow a FAT", r -> oneFile(r, "fat32", 1L << 33), NO_VERDICT, "format", null),
                of("the same on exFAT", r -> oneFile(r, "exfat", 1L << 33), PASS, "format", true),
                of("format ntfs", r -> r.fileSystem = "ntfs", NO_VERDICT, "format", null),
                of("format unknown", r -> r.fileSystem = null, NO_VERDICT, "format", null),
                of("port 480 Mb/s", r -> r.linkMbps = 480.0, PASS, "port", true),
                of("port just 2x", r -> r.linkMbps = 480.0 * 9_216_000 / 53_248_000.0 + 1e-9, PASS, "port", true),
                of("port -5 %", r -> r.linkMbps = 0.95 * 480.0 * 9_216_000 / 53_248_000.0, FAIL, "port", false),
                of("port unknown", r -> r.linkMbps = null, PASS, "port", null),
                of("port suspect", r -> suspect(r, 12), PASS, "port", null),
                of("playback not asked", r -> {}, PASS, "playback", null),
                of("playback asked", r -> kind(r, SessionKind.PLAYBACK), NO_VERDICT, "playback", null),
                of("mixdown asked", r -> kind(r, SessionKind.MIXDOWN), NO_VERDICT, "playback", null),
                of("playback 2x", r -> playback(r, 1000, 0), PASS, "playback", true),
                of("playback 1.9x", r -> playback(r, 1050, 0), FAIL, "playback", false),
                of("playback gap", r -> playback(r, 100, 3), FAIL, "playback", false),
                of("playback gap, others write", r -> played(r, 100 << 20), NO_VERDICT, "playback", null),
                of("playback gap, others write little", r -> played(r, 10 << 20), FAIL, "playback", false));
    }

    static Stream<Arguments> integrity() {
        return Stream.of(
                of("missing", r -> blocks(r, 1, 0, 0, 0, 0, 0, Origin.DEVICE), FAIL, "intact", false),
                of("stale", r -> blocks(r, 0, 1, 0, 0, 0, 0, Origin.DEVICE), FAIL, "intact", false),
                of("misplaced", r -> blocks(r, 0, 0, 1, 0, 0, 0, Origin.DEVICE), FAIL, "intact", false),
                of("flipped", r -> blocks(r, 0, 0, 0, 1, 0, 0, Origin.DEVICE), FAIL, "intact", false),
                of("unreadable", r -> blocks(r, 0, 0, 0, 0, 1, 0, Origin.DEVICE), FAIL, "intact", false),
                of("unread", r -> blocks(r, 0, 0, 0, 0, 0, 1, Origin.DEVICE), NO_VERDICT, "intact", null),
                of("all unread", r -> blocks(r, 0, 0, 0, 0, 0, 100, Origin.DEVICE), NO_VERDICT, "intact", null),
                of("bad and unread", r -> blocks(r, 1, 0, 0, 0, 0, 1, Origin.DEVICE), FAIL, "intact", false),
                of("bad, from memory", r -> blocks(r, 0, 0, 0, 1, 0, 0, Origin.HOST_MEMORY), FAIL, "intact", false),
                of("from memory", r -> blocks(r, 0, 0, 0, 0, 0, 0, Origin.HOST_MEMORY), NO_VERDICT, "intact", null),
                of("unknown, direct", r -> blocks(r, 0, 0, 0, 0, 0, 0, Origin.UNKNOWN), PASS, "intact", true),
                of(
                        "unknown, written through",
                        r -> {
                            r.ioMode = IoMode.WRITE_THROUGH;
                            blocks(r, 0, 0, 0, 0, 0, 0, Origin.UNKNOWN);
                        },
                        NO_VERDICT,
                        "intact",
                        null),
                of(
                        "bad while the host slept",
                        r -> {
                            host(take(r), 0, 99_000);
                            r.state = RunState.INTERRUPTED;
                            blocks(r, 1, 0, 0, 0, 0, 0, Origin.DEVICE);
                        },
                        FAIL,
                        "intact",
                        false),
                of(
                        "bad while counters disagree",
                        r -> {
                            take(r).device = new DeviceEvidence(0, 0, take(r).bytes);
                            blocks(r, 1, 0, 0, 0, 0, 0, Origin.DEVICE);
                        },
                        FAIL,
                        "intact",
                        false));
    }

    static Stream<Arguments> faults() {
        return Stream.of(
                of("hung in the take", r -> fault(r, 2, Fault.Kind.HUNG), FAIL, "lost-audio", false),
                of("a pause without an end", r -> fault(r, 2, Fault.Kind.HUNG), FAIL, "longest-stall", false),
                of("gone in the fill", r -> fault(r, 1, Fault.Kind.GONE), FAIL, "lost-audio", false),
                of("read-only in the close", r -> fault(r, 3, Fault.Kind.READ_ONLY), FAIL, "lost-audio", false),
                of("error in the take", r -> fault(r, 0, Fault.Kind.IO_ERROR), FAIL, "lost-audio", false),
                of("no space in the take", r -> fault(r, 2, Fault.Kind.NO_SPACE), NO_VERDICT, "lost-audio", null),
                of("no files in the take", r -> fault(r, 2, Fault.Kind.NO_ENTRIES), NO_VERDICT, "lost-audio", null),
                of("file too large", r -> fault(r, 2, Fault.Kind.TOO_LARGE), NO_VERDICT, "lost-audio", null),
                of("quota used up", r -> fault(r, 2, Fault.Kind.QUOTA), NO_VERDICT, "lost-audio", null),
                of("interrupted take", r -> fault(r, 2, Fault.Kind.INTERRUPTED), NO_VERDICT, "lost-audio", null),
                of(
                        "stopped while it did not answer",
                        r -> fault(r, 1, Fault.Kind.UNANSWERED),
                        NO_VERDICT,
                        "lost-audio",
                        true),
                of(
                        "the same in a take that had lost audio by then",
                        r -> {
                            fault(r, 2, Fault.Kind.UNANSWERED);
                            r.phases.get(2).lostMs = 4_000;
                        },
                        FAIL,
                        "lost-audio",
                        false),
                of(
                        "busy with nothing but what was not waited for",
                        r -> unanswered(r, 2, 27, 30, 0.93),
                        NO_VERDICT,
                        "rate-margin",
                        null),
                of("busy before that, too", r -> unanswered(r, 2, 3, 30, 0.9), FAIL, "rate-margin", false),
                of(
                        "a fill with no rate but before that",
                        r -> unanswered(r, 1, 300, 301, 0),
                        NO_VERDICT,
                        "rate-margin",
                        null),
                of("bench failed", r -> fault(r, 0, Fault.Kind.INTERNAL), NO_VERDICT, "buffer-margin", null),
                of("hung at read-back", r -> fault(r, 4, Fault.Kind.HUNG), FAIL, "intact", false),
                of("gone at read-back", r -> fault(r, 4, Fault.Kind.GONE), FAIL, "intact", false),
                of("hung while probes are laid", r -> probes(r, false), FAIL, "lost-audio", false),
                of("hung while probes are read", r -> probes(r, true), FAIL, "intact", false),
                of("interrupted read-back", r -> fault(r, 4, Fault.Kind.INTERRUPTED), NO_VERDICT, "intact", null),
                byHost(
                        "gone after sleep",
                        r -> {
                            fault(r, 2, Fault.Kind.GONE);
                            host(r.phases.get(2), 0, 501);
                        },
                        "lost-audio"));
    }

    static Stream<Arguments> fills() {
        return Stream.of(
                of("capped, little written", r -> ended(r, Ended.CAP, 1e9), NO_VERDICT, "rate-margin", null),
                of("capped, as much as a session", r -> ended(r, Ended.CAP, 49.8e9), PASS, "rate-margin", true),
                of(
                        "capped and shortened",
                        r -> {
                            r.shortened();
                            ended(r, Ended.CAP, 1e9);
                        },
                        PASS,
                        "rate-margin",
                        true),
                of(
                        "capped below the need",
                        r -> {
                            ended(r, Ended.CAP, 1e9);
                            mean(r, 1.9);
                        },
                        FAIL,
                        "rate-margin",
                        false),
                of(
                        "below the need, but not in a take as long as the session",
                        r -> wholeTake(r, 1.5),
                        PASS,
                        "rate-margin",
                        true),
                of(
                        "below the demand, but not in a take as long as the session",
                        r -> wholeTake(r, 0.99),
                        PASS,
                        "rate-margin",
                        true),
                of(
                        "below the demand, and the take was shorter than the session",
                        r -> {
                            ended(r, Ended.BELOW_NEED, 1e9);
                            mean(r, 0.99);
                        },
                        FAIL,
                        "rate-margin",
                        false),
                of(
                        "at the cap of the fill, then a take as long as the session",
                        r -> {
                            ended(r, Ended.CAP, 1e9);
                            mean(r, 0.99);
                            r.phases.set(2, PhaseSketch.take(3 * 3600, RunSketch.DEMAND));
                        },
                        PASS,
                        "rate-margin",
                        true),
                of(
                        "given up below the need after a fast cache, then a take as long as the session",
                        r -> wholeTake(r, 3),
                        PASS,
                        "rate-margin",
                        true),
                of(
                        "given up below the need after a fast cache, and a short take",
                        r -> ended(r, Ended.BELOW_NEED, 1e9),
                        NO_VERDICT,
                        "rate-margin",
                        null),
                of("full", r -> ended(r, Ended.FULL, 1e9), PASS, "rate-margin", true),
                of("cut short", r -> ended(r, Ended.CUT_SHORT, 60e9), NO_VERDICT, "rate-margin", null),
                of(
                        "cut short and shortened",
                        r -> {
                            r.shortened();
                            ended(r, Ended.CUT_SHORT, 60e9);
                        },
                        NO_VERDICT,
                        "rate-margin",
                        null),
                of(
                        "steady below need",
                        r -> {
                            ended(r, Ended.BELOW_NEED, 1e9);
                            mean(r, 0.5);
                        },
                        FAIL,
                        "rate-margin",
                        false),
                of("no fill though planned", r -> r.phases.remove(1), NO_VERDICT, "rate-margin", null));
    }

    static Stream<Arguments> outside() {
        return Stream.of(
                byHost(
                        "the whole loss was the host's",
                        r -> {
                            take(r).lostMs = 40;
                            take(r).overruns.add(new Overrun(3, 40, 32, 40));
                            take(r).peakBacklogHostMs = 1500;
                        },
                        "lost-audio"),
                of(
                        "most of the loss was the host's",
                        r -> {
                            take(r).lostMs = 40;
                            take(r).overruns.add(new Overrun(3, 40, 32, 39));
                        },
                        FAIL,
                        "lost-audio",
                        false),
                byHost(
                        "a loss not listed, within the host's delay",
                        r -> {
                            take(r).lostMs = 29;
                            take(r).peakBacklogHostMs = 1500;
                        },
                        "lost-audio"),
                of("a loss not listed, beyond the host's delay", r -> take(r).lostMs = 31, FAIL, "lost-audio", false),
                of(
                        "one loss was the host's, one not",
                        r -> {
                            take(r).lostMs = 80;
                            take(r).overruns.add(new Overrun(3, 40, 32, 900));
                            take(r).overruns.add(new Overrun(9, 40, 32, 0));
                        },
                        FAIL,
                        "lost-audio",
                        false),
                byHost(
                        "backlog of the host's making",
                        r -> {
                            take(r).peakBacklogMs = 1500;
                            take(r).peakBacklogHostMs = 500;
                        },
                        "buffer-margin"),
                of(
                        "backlog mostly of the host's making",
                        r -> {
                            take(r).peakBacklogMs = 1500;
                            take(r).peakBacklogHostMs = 499;
                        },
                        FAIL,
                        "buffer-margin",
                        false),
                byHost("stall of the host's making", r -> stall(r, 1100, 100), "longest-stall"),
                of("stall mostly the drive's", r -> stall(r, 1100, 99), FAIL, "longest-stall", false),
                of(
                        "two stalls, one the drive's",
                        r -> {
                            stall(r, 1500, 1500);
                            stall(r, 1100, 0);
                        },
                        FAIL,
                        "longest-stall",
                        false),
                byHost(
                        "slow close, late host",
                        r -> {
                            close(r, 10_500);
                            host(r.phase(PhaseKind.CLOSE), 500, 0);
                        },
                        "close-time"),
                of(
                        "slow close, host a little late",
                        r -> {
                            close(r, 10_500);
                            host(r.phase(PhaseKind.CLOSE), 499, 0);
                        },
                        FAIL,
                        "close-time",
                        false),
                byHost(
                        "busy, late host",
                        r -> {
                            take(r).busyFraction = 0.55;
                            host(take(r), 300_000 * 0.05 + 1, 0);
                        },
                        "rate-margin"),
                byHost(
                        "low mean where the host was late",
                        r -> {
                            mean(r, 1.9);
                            host(r.phases.get(1), r.phases.get(1).seconds * 1000 * 0.06, 0);
                        },
                        "rate-margin"),
                of(
                        "slow window where the host was late",
                        r -> {
                            floor(r, 1.9);
                            r.phases.get(1).series = fillSeries(200, 1000);
                        },
                        PASS,
                        "rate-margin",
                        true),
                of(
                        "slow window where the host was not late",
                        r -> {
                            floor(r, 1.9);
                            r.phases.get(1).series = fillSeries(0, 1000);
                        },
                        NO_VERDICT,
                        "rate-margin",
                        null),
                of("slept 500 ms", r -> host(take(r), 0, 500), PASS, "lost-audio", true),
                byHost("slept 501 ms", r -> host(take(r), 0, 501), "lost-audio"),
                of("slept in the take, fill as it was", r -> host(take(r), 0, 501), NO_VERDICT, "close-time", true),
                of("slept in the read-back", r -> host(r.phase(PhaseKind.READ_BACK), 0, 9000), PASS, "intact", true),
                byHost(
                        "stall in a take with sleep",
                        r -> {
                            stall(r, 5000, 0);
                            host(take(r), 0, 2000);
                        },
                        "longest-stall"),
                of("clock set, sleep known", r -> clock(r, -9000, true), PASS, "lost-audio", true),
                byHost("clock jump, sleep unknown", r -> clock(r, -9000, false), "lost-audio"),
                of("late for 10 %", r -> host(take(r), 30_000, 0), PASS, "lost-audio", true),
                of("late for more than 10 %", r -> host(take(r), 30_300, 0), NO_VERDICT, "lost-audio", true),
                byHost(
                        "lost-audio within all of the lateness of a computer late for more than 10 %",
                        JudgeRulesTest::mostlyLate, "lost-audio"),
                byHost(
                        "buffer-margin within all of the lateness of a computer late for more than 10 %",
                        JudgeRulesTest::mostlyLate, "buffer-margin"),
                byHost(
                        "longest-stall within all of the lateness of a computer late for more than 10 %",
                        JudgeRulesTest::mostlyLate, "longest-stall"),
                of(
                        "a loss beyond all of it",
                        r -> {
                            host(take(r), 30_300, 0);
                            take(r).lostMs = 31_000;
                            take(r).overruns.add(new Overrun(3, 15_000, 32, 0));
                            take(r).overruns.add(new Overrun(90, 16_000, 32, 0));
                        },
                        FAIL,
                        "lost-audio",
                        false),
                of(
                        "the same loss on a computer late for 10 %",
                        r -> {
                            host(take(r), 30_000, 0);
                            take(r).lostMs = 30_000;
                            take(r).overruns.add(new Overrun(3, 30_000, 32, 0));
                        },
                        FAIL,
                        "lost-audio",
                        false),
                of("device took 98 %", r -> device(r, 0.98), PASS, "rate-margin", true),
                of("device took 97 %", r -> device(r, 0.97), NO_VERDICT, "rate-margin", true),
                of(
                        "device took 97 %, missed",
                        r -> {
                            device(r, 0.97);
                            take(r).peakBacklogMs = 1900;
                        },
                        NO_VERDICT,
                        "buffer-margin",
                        null),
                of(
                        "device took 97 %, and no room",
                        r -> {
                            device(r, 0.97);
                            r.freeBytes = 1L;
                        },
                        FAIL,
                        "room",
                        false),
                of("another program wrote, met", r -> device(r, 1.3), PASS, "buffer-margin", true),
                of(
                        "another program wrote, missed",
                        r -> {
                            device(r, 1.3);
                            take(r).peakBacklogMs = 1900;
                        },
                        NO_VERDICT,
                        "buffer-margin",
                        null),
                of(
                        "written through costs more",
                        r -> {
                            r.ioMode = IoMode.WRITE_THROUGH;
                            device(r, 2.4);
                            take(r).peakBacklogMs = 1900;
                        },
                        FAIL,
                        "buffer-margin",
                        false),
                of("no counters", r -> r.phases.forEach(p -> p.device = null), PASS, "intact", true));
    }

    /** A quarter of 5 Gbit/s is 156.25 MB/s, so that 46.875 MB hold a bus up for 300 ms at most. */
    static Stream<Arguments> neighbours() {
        return Stream.of(
                of("met beside neighbours", r -> neighbours(r, 1_000_000_000_000L), PASS, "buffer-margin", true),
                of("backlog 300 ms too large, at rest", r -> behind(r, 1 << 20), FAIL, "buffer-margin", false),
                of("for 299 ms of it at most", r -> behind(r, 46_718_750), FAIL, "buffer-margin", false),
                of("for all of it", r -> behind(r, 46_875_000), NO_VERDICT, "buffer-margin", null),
                of(
                        "over a link that is not known",
                        r -> {
                            r.linkMbps = null;
                            behind(r, 2 << 20);
                        },
                        NO_VERDICT,
                        "buffer-margin",
                        null),
                of("100 ms lost, for 96", r -> lost(r, 15_000_000), FAIL, "lost-audio", false),
                of("100 ms lost, for 102.4, and the margin by far", r -> lost(r, 16_000_000), FAIL, "lost-audio", null),
                of(
                        "a stall 1 s too long, for 0.96 s",
                        r -> {
                            neighbours(r, 150_000_000);
                            stall(r, 2000, 0);
                        },
                        FAIL,
                        "longest-stall",
                        false),
                of(
                        "a stall 1 s too long, for 1.02 s",
                        r -> {
                            neighbours(r, 160_000_000);
                            stall(r, 2000, 0);
                        },
                        NO_VERDICT,
                        "longest-stall",
                        null),
                of(
                        "the close, for longer than it was too long",
                        r -> {
                            close(r, 11_000);
                            r.phase(PhaseKind.CLOSE).device = new DeviceEvidence(0, 0, 0, null, 200_000_000L);
                        },
                        NO_VERDICT,
                        "close-time",
                        null),
                of(
                        "a slow fill, by a little",
                        r -> {
                            mean(r, 1.4);
                            neighbours(r, 20_000_000);
                        },
                        FAIL,
                        "rate-margin",
                        false),
                of(
                        "a slow fill, by far",
                        r -> {
                            mean(r, 1.4);
                            neighbours(r, 1_000_000_000_000L);
                        },
                        NO_VERDICT,
                        "rate-margin",
                        null),
                of(
                        "damage is the drive's own",
                        r -> {
                            neighbours(r, 1_000_000_000_000L);
                            blocks(r, 1, 0, 0, 0, 0, 0, Origin.DEVICE);
                        },
                        FAIL,
                        "intact",
                        false));
    }

    private static void behind(RunSketch run, long bytes) {
        neighbours(run, bytes);
        take(run).peakBacklogMs = 1300;
    }

    private static void lost(RunSketch run, long bytes) {
        neighbours(run, bytes);
        lose(take(run), 100);
    }

    /** Other drives on its bus moved so many bytes in each phase that writes. */
    private static void neighbours(RunSketch run, long bytes) {
        for (PhaseSketch phase : run.phases.subList(0, 3)) {
            phase.device = new DeviceEvidence(phase.bytes, 0, phase.bytes, null, bytes);
        }
    }

    static Stream<Arguments> missing() {
        return Stream.of(
                of("still running", r -> r.state = RunState.RUNNING, NO_VERDICT, "lost-audio", true),
                of("interrupted", r -> r.state = RunState.INTERRUPTED, NO_VERDICT, "lost-audio", true),
                of("broken", r -> r.state = RunState.BROKEN, NO_VERDICT, "lost-audio", true),
                of(
                        "interrupted after a proven miss",
                        r -> {
                            r.state = RunState.INTERRUPTED;
                            lose(take(r), 3);
                        },
                        FAIL,
                        "lost-audio",
                        false),
                of("second take missing", r -> r.phases.remove(2), NO_VERDICT, "lost-audio", null),
                of("take not finished", r -> take(r).complete = false, NO_VERDICT, "longest-stall", null),
                of("no close", r -> r.phases.remove(3), NO_VERDICT, "close-time", null),
                of("no read-back", r -> r.phases.remove(4), NO_VERDICT, "intact", null),
                of(
                        "no takes at all",
                        r -> r.phases.removeIf(p -> p.kind == PhaseKind.TAKE),
                        NO_VERDICT,
                        "buffer-margin",
                        null));
    }

    /** Written through, at a rate margin of 2 asked; the device is busy for part of the time that its calls take. */
    static Stream<Arguments> detours() {
        return Stream.of(
                of("busy 0.9, the device 0.495", r -> busy(r, 0.9, 0.55), NO_VERDICT, "rate-margin", null),
                of("busy 0.9, the device 0.505", r -> busy(r, 0.9, 0.561), FAIL, "rate-margin", false),
                of(
                        "busy 0.52, the device 0.473, as near as directly",
                        r -> busy(r, 0.52, 0.91),
                        FAIL,
                        "rate-margin",
                        false),
                of(
                        "the same, written directly",
                        r -> {
                            busy(r, 0.9, 0.5);
                            r.ioMode = IoMode.DIRECT;
                        },
                        FAIL,
                        "rate-margin",
                        false),
                of(
                        "the same, and nobody knows how busy the device was",
                        r -> {
                            busy(r, 0.9, 0.5);
                            device(r, 1);
                        },
                        FAIL,
                        "rate-margin",
                        false),
                of(
                        "a mean that the device alone would double",
                        r -> {
                            mean(r, 1.9);
                            r.phases.get(1).busyFraction = 1;
                            detour(r.phases.get(1), r, 0.5);
                        },
                        NO_VERDICT,
                        "rate-margin",
                        null),
                of(
                        "a mean that misses anyway",
                        r -> {
                            mean(r, 0.95);
                            r.phases.get(1).busyFraction = 1;
                            detour(r.phases.get(1), r, 0.5);
                        },
                        FAIL,
                        "rate-margin",
                        false),
                of("a loss within the detour", r -> loseOnDetour(r, 1000), NO_VERDICT, "lost-audio", null),
                of("a loss beyond it", r -> loseOnDetour(r, -1), FAIL, "lost-audio", false),
                of(
                        "a backlog within the detour",
                        r -> {
                            take(r).peakBacklogMs = 1050;
                            detour(take(r), r, 0.5);
                        },
                        NO_VERDICT,
                        "buffer-margin",
                        null),
                of(
                        "a pause that was half detour",
                        r -> {
                            stall(r, 1500, 0);
                            detour(take(r), r, 0.66);
                        },
                        NO_VERDICT,
                        "longest-stall",
                        null),
                of(
                        "a pause of the device",
                        r -> {
                            stall(r, 1500, 0);
                            detour(take(r), r, 0.67);
                        },
                        FAIL,
                        "longest-stall",
                        false),
                of(
                        "a slow close",
                        r -> {
                            close(r, 10_500);
                            r.phase(PhaseKind.CLOSE).seconds = 10.5;
                            r.phase(PhaseKind.CLOSE).busyFraction = 1;
                            detour(r.phase(PhaseKind.CLOSE), r, 0.8);
                        },
                        NO_VERDICT,
                        "close-time",
                        null));
    }

    private static void busy(RunSketch run, double fraction, double deviceShare) {
        take(run).busyFraction = fraction;
        detour(take(run), run, deviceShare);
    }

    private static void loseOnDetour(RunSketch run, double sparedMs) {
        detour(take(run), run, 0.5);
        take(run).peakBacklogMs = 400;
        lose(take(run), 0.5 * take(run).busyFraction * take(run).seconds * 1000 - sparedMs);
    }

    private static void detour(PhaseSketch phase, RunSketch run, double deviceShare) {
        run.ioMode = IoMode.WRITE_THROUGH;
        phase.device = new DeviceEvidence(
                phase.bytes, 0, phase.bytes, 1000 * phase.busyFraction * phase.seconds * deviceShare, null);
    }

    private static Arguments of(
            String what, Consumer<RunSketch> change, Verdict.Outcome outcome, String id, @Nullable Boolean met) {
        return arguments(what, change, outcome, id, met, false);
    }

    private static Arguments byHost(String what, Consumer<RunSketch> change, String id) {
        return arguments(what, change, NO_VERDICT, id, null, true);
    }

    private static PhaseSketch take(RunSketch run) {
        return run.phases.get(0);
    }

    private static void mostlyLate(RunSketch run) {
        PhaseSketch take = take(run);
        host(take, 30_300, 0);
        take.lostMs = 30_000;
        take.peakBacklogMs = 2000;
        take.overruns.add(new Overrun(3, 15_000, 32, 0));
        take.overruns.add(new Overrun(90, 15_000, 32, 0));
        stall(run, 20_000, 0);
    }

    private static void lose(PhaseSketch phase, double ms) {
        phase.lostMs = ms;
        phase.overruns.add(new Overrun(3, ms, 32, 0));
    }

    private static void floor(RunSketch run, double factor) {
        FillFacts old = fill(run);
        run.phases.get(1).fill = facts(old, old.ended(), factor * RunSketch.DEMAND);
    }

    /** The fill takes as long as its bytes do at so many times the demand. */
    private static void mean(RunSketch run, double factor) {
        PhaseSketch fill = run.phases.get(1);
        fill.seconds = fill.bytes / (factor * RunSketch.DEMAND);
    }

    /** The take after the fill lasts as long as the session. */
    private static void wholeTake(RunSketch run) {
        PhaseSketch take = run.phases.get(2);
        take.seconds = 3 * 3600;
        take.bytes = 3 * 3600 * RunSketch.DEMAND;
        take.device = new DeviceEvidence(take.bytes, 0, take.bytes);
    }

    private static void ended(RunSketch run, Ended ended, double bytes) {
        FillFacts old = fill(run);
        run.phases.get(1).fill = facts(old, ended, old.floorBytesPerSecond());
        run.phases.get(1).bytes = Math.round(bytes);
        run.phases.get(1).seconds = bytes / 40e6;
        run.phases.get(1).device = new DeviceEvidence(Math.round(bytes), 0, Math.round(bytes));
    }

    private static FillFacts fill(RunSketch run) {
        return java.util.Objects.requireNonNull(run.phases.get(1).fill);
    }

    private static FillFacts facts(FillFacts old, Ended ended, double floor) {
        return new FillFacts(
                ended, ended == Ended.STEADY, 10, old.roundsBytesPerSecond(), floor, 10, null, null, null, old.room());
    }

    /** 60 s at 8550 KiB/s; the host late by so many ms in each of the ten slow seconds at the end. */
    private static Series fillSeries(int hostMs, int busyMs) {
        int[] kib = new int[60];
        int[] host = new int[60];
        int[] busy = new int[60];
        for (int i = 0; i < 60; i++) {
            kib[i] = i < 50 ? 20_000 : 8_550;
            host[i] = i < 50 ? 0 : hostMs;
            busy[i] = busyMs;
        }
        IntColumn none = IntColumn.of(new int[60]);
        return new Series(IntColumn.of(kib), none, none, IntColumn.of(busy), IntColumn.of(host));
    }

    private static void stall(RunSketch run, double ms, double hostMs) {
        take(run).stalls.add(new Stall(10, ms, hostMs));
    }

    private static void close(RunSketch run, double ms) {
        run.phase(PhaseKind.CLOSE).close = new CloseFacts(ms, 0, 0, 0, 0, ms, 32);
    }

    private static void host(PhaseSketch phase, double lateMs, double sleptMs) {
        phase.hostDelays = new HostDelays(5, lateMs, 0, 0, sleptMs, 0, true);
    }

    private static void clock(RunSketch run, double stepMs, boolean sleepKnown) {
        take(run).hostDelays = new HostDelays(5, 10, 0, 0, 0, stepMs, sleepKnown);
    }

    private static void device(RunSketch run, double share) {
        for (PhaseSketch phase : run.phases.subList(0, 3)) {
            phase.device = new DeviceEvidence(Math.round(phase.bytes * share), 0, phase.bytes);
        }
    }

    private static void suspect(RunSketch run, double mbps) {
        run.linkMbps = mbps;
        run.linkSuspect = true;
    }

    private static void kind(RunSketch run, SessionKind kind) {
        run.session = RunSketch.session("barn-32", 32, kind, 3 * 3600, 2);
    }

    private static void playback(RunSketch run, double shortfallMs, double gapMs) {
        kind(run, SessionKind.PLAYBACK);
        PhaseSketch phase = PhaseSketch.take(60, RunSketch.DEMAND);
        phase.kind = PhaseKind.PLAYBACK;
        phase.peakBacklogMs = shortfallMs;
        // it only reads: the device counts no write, and that must not be an excuse for it
        phase.device = new DeviceEvidence(0, phase.bytes, phase.bytes);
        if (gapMs > 0) {
            lose(phase, gapMs);
        }
        run.phases.add(phase);
    }

    private static void played(RunSketch run, long othersWrote) {
        playback(run, 100, 3);
        PhaseSketch phase = run.phase(PhaseKind.PLAYBACK);
        phase.device = new DeviceEvidence(othersWrote, phase.bytes, phase.bytes);
    }

    /** All tracks in one file of up to so many bytes, on a drive whose file system is nothing to the session. */
    private static void oneFile(RunSketch run, String fileSystem, long fileLimitBytes) {
        run.fileSystem = fileSystem;
        run.session = run.session
                .but()
                .layout(FileLayout.INTERLEAVED)
                .fileSystems(List.of())
                .fileLimitBytes(fileLimitBytes)
                .build();
    }

    /** A phase of {@code seconds} that a person ended when a call had been out for the last {@code outS} of it. */
    private static void unanswered(RunSketch run, int phase, double outS, double seconds, double busy) {
        PhaseSketch cut = run.phases.get(phase);
        cut.bytes = Math.round(cut.bytes * (seconds - outS) / cut.seconds);
        cut.seconds = seconds;
        cut.busyFraction = busy;
        cut.complete = false;
        cut.series = null;
        cut.fault = new Fault(Fault.Kind.UNANSWERED, seconds - outS, 99, "write", "stopped by you");
    }

    private static void fault(RunSketch run, int phase, Fault.Kind kind) {
        run.phases.get(phase).fault = new Fault(kind, 12, 99, "write", "no");
        run.phases.get(phase).complete = false;
    }

    /** A fill given up below the need with this mean, in demands, and a take of the session's 3 h after it. */
    private static void wholeTake(RunSketch run, double mean) {
        ended(run, Ended.BELOW_NEED, 1e9);
        mean(run, mean);
        run.phases.set(2, PhaseSketch.take(3 * 3600, RunSketch.DEMAND));
    }

    /** Single blocks over the free room, at which the drive hangs. */
    private static void probes(RunSketch run, boolean read) {
        PhaseSketch probes = PhaseSketch.readBack(4 << 20);
        probes.kind = PhaseKind.PROBES;
        probes.readBack = read ? probes.readBack : null;
        run.phases.add(read ? run.phases.size() : 0, probes);
        fault(run, run.phases.indexOf(probes), Fault.Kind.HUNG);
    }

    private static void blocks(
            RunSketch run,
            long missing,
            long stale,
            long misplaced,
            long flipped,
            long unreadable,
            long unread,
            Origin origin) {
        long good = 100 - missing - stale - misplaced - flipped - unreadable - unread;
        run.phase(PhaseKind.READ_BACK).readBack =
                new ReadBackFacts(100, good, missing, stale, misplaced, flipped, unreadable, unread, origin, List.of());
    }
}
