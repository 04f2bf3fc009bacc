package tracksoak.report.verdict;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.function.BiConsumer;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Seeded;
import tracksoak.report.record.PhaseSketch;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.CloseFacts;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.Overrun;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Stall;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.facts.Verdict.Outcome;
import tracksoak.report.record.json.RecordJson;

/** Making one fact of any run worse never makes a PASS of what was none. */
class JudgeMonotonyTest {

    /** Runs in each build, and at night; each is worsened in every way there is. */
    private static final int RUNS = 150;

    private static final int NIGHTLY_RUNS = 2_000;

    /** Each makes one fact worse. */
    private static final List<BiConsumer<RunSketch, Random>> WORSENINGS = List.of(
            (run, random) -> any(run, random).lostMs += 1 + random.nextInt(100),
            (run, random) -> any(run, random).peakBacklogMs += random.nextInt(2000),
            (run, random) -> {
                PhaseSketch phase = any(run, random);
                phase.busyFraction = Math.min(1, phase.busyFraction + random.nextDouble());
            },
            (run, random) ->
                    any(run, random).stalls.add(new Stall(1, 250 + random.nextInt(2000), random.nextInt(2000))),
            (run, random) -> any(run, random).overruns.add(new Overrun(1, random.nextInt(99), 3, random.nextInt(99))),
            (run, random) -> any(run, random).peakBacklogHostMs += random.nextInt(2000),
            (run, random) -> any(run, random).complete = false,
            (run, random) -> {
                PhaseSketch phase = any(run, random);
                Fault.Kind kind = pick(List.of(Fault.Kind.values()), random);
                phase.fault = phase.fault == null ? new Fault(kind, 1, 1, "write", "error") : phase.fault;
            },
            (run, random) -> host(any(run, random), 1e5 * random.nextDouble(), random.nextInt(9000), 0, true),
            (run, random) -> host(any(run, random), 0, 0, 5000, false),
            (run, random) -> {
                PhaseSketch phase = any(run, random);
                long wrote = Math.round(phase.bytes * random.nextDouble());
                long least = phase.device == null ? wrote : Math.min(wrote, phase.device.bytesWritten());
                phase.device = new DeviceEvidence(least, 0, phase.bytes);
            },
            (run, random) -> run.phases.stream()
                    .filter(p -> p.kind == PhaseKind.CLOSE)
                    .forEach(p -> {
                        double ms = Objects.requireNonNull(p.close).totalMs() + random.nextInt(20_000);
                        p.close = new CloseFacts(ms, 0, 0, 0, 0, ms, 1);
                    }),
            (run, random) -> run.phases.stream().filter(p -> p.fill != null).forEach(p -> {
                FillFacts old = Objects.requireNonNull(p.fill);
                p.fill = fill(old.ended(), old.floorBytesPerSecond() * random.nextDouble());
            }),
            (run, random) -> run.phases.stream().filter(p -> p.fill != null).forEach(p -> {
                p.fill = fill(
                        FillFacts.Ended.CUT_SHORT,
                        Objects.requireNonNull(p.fill).floorBytesPerSecond());
            }),
            (run, random) -> run.phases.stream().filter(p -> p.readBack != null).forEach(p -> {
                p.readBack = blocks(random.nextInt(3), random.nextInt(3), ReadBackFacts.Origin.HOST_MEMORY);
            }),
            (run, random) -> run.phases.removeIf(p -> p.kind == PhaseKind.CLOSE && random.nextBoolean()),
            (run, random) -> run.phases.removeIf(p -> p.kind == PhaseKind.READ_BACK),
            (run, random) -> run.phases.removeIf(p -> p.kind == PhaseKind.TAKE && random.nextBoolean()),
            (run, random) ->
                    run.freeBytes = run.freeBytes == null ? null : (Long) (run.freeBytes / (1 + random.nextInt(9))),
            (run, random) -> run.linkMbps = run.linkMbps == null ? null : (Double) (run.linkMbps / 100),
            (run, random) -> run.fileSystem = random.nextBoolean() ? null : "ntfs",
            (run, random) ->
                    run.state = run.state == RunState.COMPLETE ? pick(List.of(RunState.values()), random) : run.state);

    @Test
    void worseFactsNeverMakeAPass() {
        worsen(RUNS);
    }

    @Test
    @Tag("nightly")
    void worseFactsNeverMakeAPassAllNight() {
        worsen(NIGHTLY_RUNS);
    }

    private static void worsen(int runs) {
        int passes = 0;
        int fails = 0;
        for (int i = 0; i < runs; i++) {
            long seed = 1_000_003L * i + 17;
            RunSketch run = random(Seeded.random(seed));
            Session judged = session(Seeded.random(seed), run.session);
            Outcome before = Judge.judge(judged, run.record()).outcome();
            passes += before == Outcome.PASS ? 1 : 0;
            fails += before == Outcome.FAIL ? 1 : 0;
            for (int w = 0; w < WORSENINGS.size(); w++) {
                RunSketch worse = random(Seeded.random(seed));
                WORSENINGS.get(w).accept(worse, Seeded.random(seed + w));
                Verdict after = Judge.judge(judged, worse.record());
                if (after.outcome() == Outcome.PASS) {
                    assertThat(before)
                            .as("seed %d, worsening %d: %s", seed, w, after)
                            .isEqualTo(Outcome.PASS);
                }
            }
        }
        assertThat(passes).as("the runs must show something").isBetween(runs / 20, runs);
        assertThat(fails).isBetween(runs / 20, runs);
    }

    @Test
    void everyVerdictCanBeWrittenAndReadBack() {
        for (int i = 0; i < 300; i++) {
            long seed = 7_919L * i;
            RunRecord facts = random(Seeded.random(seed)).record();
            RunRecord judged = facts.withVerdict(Judge.judge(facts));
            assertThat(RecordJson.read(RecordJson.bytes(judged)))
                    .as("seed %d", seed)
                    .isEqualTo(judged);
            assertThat(Judge.judge(judged)).as("seed %d", seed).isEqualTo(judged.verdict());
        }
    }

    /** A good run, in which on average one thing or two went wrong. */
    private static RunSketch random(Random random) {
        RunSketch run = random.nextInt(4) == 0 ? RunSketch.goodLineCheck() : RunSketch.good();
        if (random.nextInt(4) == 0) {
            run.ioMode = random.nextBoolean() ? IoMode.WRITE_THROUGH : IoMode.SIMULATED;
        }
        for (PhaseSketch phase : run.phases) {
            phase.service = null;
            phase.peakBacklogMs *= 0.5 + random.nextDouble() * 2;
            phase.busyFraction *= 0.5 + random.nextDouble() * 1.2;
        }
        for (int wrong = random.nextInt(3); wrong > 0; wrong--) {
            WORSENINGS.get(random.nextInt(WORSENINGS.size())).accept(run, random);
        }
        return run;
    }

    private static Session session(Random random, Session own) {
        return switch (random.nextInt(4)) {
            case 0 -> RunSketch.session("fewer", 8);
            case 1 -> RunSketch.session("more", 40);
            default -> own;
        };
    }

    private static PhaseSketch any(RunSketch run, Random random) {
        return run.phases.isEmpty() ? PhaseSketch.close() : run.phases.get(random.nextInt(run.phases.size()));
    }

    private static void host(PhaseSketch phase, double lateMs, double sleptMs, double stepMs, boolean sleepKnown) {
        HostDelays old = Objects.requireNonNull(phase.hostDelays);
        phase.hostDelays = new HostDelays(
                old.canaryMaxMs(),
                old.canaryTotalMs() + lateMs,
                old.ownMaxMs(),
                old.ownTotalMs(),
                old.suspendedMs() + sleptMs,
                old.clockStepMs() + stepMs,
                old.sleepKnown() && sleepKnown);
    }

    private static <T> T pick(List<T> of, Random random) {
        return of.get(random.nextInt(of.size()));
    }

    private static FillFacts fill(FillFacts.Ended ended, double floor) {
        return new FillFacts(ended, false, 10, List.of(floor), floor, 10, null, null, null, 1_000_000_000);
    }

    private static ReadBackFacts blocks(long flipped, long unread, ReadBackFacts.Origin origin) {
        return new ReadBackFacts(100, 100 - flipped - unread, 0, 0, 0, flipped, 0, unread, origin, List.of());
    }
}
