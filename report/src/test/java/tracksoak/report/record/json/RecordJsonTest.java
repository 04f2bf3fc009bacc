package tracksoak.report.record.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.base.Seeded;
import tracksoak.report.record.PhaseSketch;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.Estimate;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.IntColumn;
import tracksoak.report.record.facts.KeepsakeFacts;
import tracksoak.report.record.facts.MixFacts;
import tracksoak.report.record.facts.Odds;
import tracksoak.report.record.facts.Overrun;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.PlaybackFacts;
import tracksoak.report.record.facts.ProbeFacts;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.ReadyFacts;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RoundsFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Series;
import tracksoak.report.record.facts.Stall;
import tracksoak.report.record.facts.StartFacts;
import tracksoak.report.record.facts.StreamTotals;
import tracksoak.report.record.facts.Verdict;

public class RecordJsonTest {

    private static final RunRecord RECORD = fullRecord();
    private static final String JSON = RecordJson.write(RECORD);

    @Test
    void readsBackEqual() {
        assertThat(read(JSON)).isEqualTo(RECORD);
        assertThat(RecordJson.write(read(JSON))).isEqualTo(JSON);
    }

    @Test
    void namesAreInKebabCaseAndTheOutcomeInCapitals() {
        assertThat(JSON)
                .contains(
                        "\"kind\": \"read-back\"",
                        "\"layout\": \"file-per-track\"",
                        "\"ioMode\": \"direct\"",
                        "\"format\": \"pcm-24\"",
                        "\"outcome\": \"NO_VERDICT\"",
                        "\"fromDevice\": \"device\"",
                        "\"kib\": [0,4500,2147483647]");
        assertThat(JSON)
                .startsWith("{\n \"schema\": \"tracksoak/run-record/3\",\n \"id\": ")
                .endsWith("}\n");
    }

    @ParameterizedTest
    @CsvSource({"10000000, 10000000", "0.1, 0.1", "4608000.5, 4608000.5", "0, 0.0", "1e-7, 1.0E-7", "1e20, 1.0E20"})
    void numbersArePlainWherePeopleWouldWriteThemPlain(double value, String text) {
        assertThat(DoubleJson.text(value)).isEqualTo(text);
    }

    @Test
    void everyDoubleSurvives() {
        long seed = 99;
        Random random = Seeded.random(seed);
        for (int i = 0; i < 20_000; i++) {
            double value = Double.longBitsToDouble(random.nextLong());
            if (Double.isFinite(value)) {
                assertThat(Double.parseDouble(DoubleJson.text(value)))
                        .as("seed %d", seed)
                        .isEqualTo(value);
            }
            double usual = random.nextDouble() * Math.pow(10, random.nextInt(12));
            assertThat(Double.parseDouble(DoubleJson.text(usual))).isEqualTo(usual);
        }
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
        "seed": "-42" | "seed": "-42", "seed": "-42" | its part "seed" is there twice
        "seed": "-42" | "seed": "-42", "sead": 1 | sead
        "seed": "-42",| | seed
        "seed": "-42" | "seed": null | seed
        "seed": "-42" | "seed": -42 | seed
        "seed": "-42" | "seed": "1.5" | seed
        "seed": "-42" | "seed": "-0" | seed
        "seed": "-42" | "seed": "9223372036854775808" | seed
        "seed": "-42" | "seed": "" | seed
        "besides": ["keyboard"] | "besides": 3 | besides
        "dirty": true | "dirty": "yes" | dirty
        "idleBeforeS": 60 | "idleBeforeS": -1 | idleBeforeS
        "headerS": 0 | "headerS": -1 | headerS
        "spaceInAdvanceBytes": 0 | "spaceInAdvanceBytes": 9e18 | spaceInAdvanceBytes
        "state": "complete" | "state": "COMPLETE" | state
        "state": "complete" | "state": 1 | state
        "state": "complete" | "state": null | state
        "stateReason": "" | "stateReason": null | stateReason
        "hangLimitS": 30 | "hangLimitS": NaN | NaN is no number
        "hangLimitS": 30 | "hangLimitS": "NaN" | hangLimitS
        "hangLimitS": 30 | "hangLimitS": 1e999 | hangLimitS
        "hangLimitS": 30 | "hangLimitS": -1 | hangLimitS
        "cores": 2 | "cores": 2.0 | cores
        "cores": 2 | "cores": 99999999999 | cores
        "kib": [0,4500,2147483647] | "kib": [0,4500] | series
        "kib": [0,4500,2147483647] | "kib": [0,4500,-1] | kib
        "kib": [0,4500,2147483647] | "kib": [0,4500,1.5] | kib
        "kib": [0,4500,2147483647] | "kib": [0,4500,2147483648] | kib
        "kib": [0,4500,2147483647] | "kib": [0,4500,null] | kib
        "kib": [0,4500,2147483647] | "kib": 3 | kib
        017f22e2-79b0-7cc3-98c4-dc0c0c07398f | ../../etc | id
        "startedAt": "2026-02-14T18:00:00Z" | "startedAt": "yesterday" | startedAt
        "bufferS": 2 | "bufferS": 0 | bufferS
        "tracks": 32 | "tracks": 0 | tracks
        "tracks": 32 | "tracks": 2000000000 | tracks
        "name": "barn-32" | "name": "<b>" | name
        """)
    void refusesWhatIsNotARecord(String from, String to, String where) {
        assertThat(JSON).contains(from);
        String broken = JSON.replace(from, to == null ? "" : to);
        assertThatThrownBy(() -> read(broken))
                .isInstanceOf(RecordException.class)
                .hasMessageStartingWith("the run record cannot be read: ")
                .hasMessageContaining(where)
                .message()
                .doesNotContain("tracksoak.", "java.", "com.fasterxml", "creator", "StreamRead", "Unrecognized");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"", " ", "[]", "null", "{", "{}", "3", "\"x\"", "{\"schema\": 1}", "\u0000", "{\"schema\": null}"
            })
    void refusesWhatIsNoRecordAtAll(String json) {
        assertThatThrownBy(() -> read(json)).isInstanceOf(RecordException.class);
    }

    @Test
    void refusesTrailingText() {
        assertThatThrownBy(() -> read(JSON + "{}")).isInstanceOf(RecordException.class);
        assertThatThrownBy(() -> read(JSON + "x")).isInstanceOf(RecordException.class);
    }

    @Test
    void everyCutIsAnErrorAndNotARecord() {
        byte[] whole = JSON.stripTrailing().getBytes(StandardCharsets.UTF_8);
        for (int length = 0; length < whole.length; length += 97) {
            byte[] cut = java.util.Arrays.copyOf(whole, length);
            assertThatThrownBy(() -> RecordJson.read(cut)).isInstanceOf(RecordException.class);
        }
    }

    @Test
    void damageIsAnErrorOrAnotherRecordButNothingElse() {
        long seed = 5;
        Random random = Seeded.random(seed);
        byte[] whole = JSON.getBytes(StandardCharsets.UTF_8);
        int refused = 0;
        for (int i = 0; i < 2_000; i++) {
            byte[] damaged = whole.clone();
            damaged[random.nextInt(damaged.length)] = (byte) random.nextInt(256);
            try {
                RecordJson.read(damaged);
            } catch (RecordException e) {
                refused++;
            }
        }
        assertThat(refused).as("seed %d", seed).isGreaterThan(200);
    }

    @Test
    void refusesDeepAndHugeDocuments() {
        String deep = "{\"a\": " + "[".repeat(100_000) + "]".repeat(100_000) + "}";
        assertThatThrownBy(() -> read(deep)).isInstanceOf(RecordException.class);
        assertThatThrownBy(() -> RecordJson.read(new byte[RecordJson.MOST_BYTES + 1]))
                .isInstanceOf(RecordException.class)
                .hasMessageContaining("larger than");
    }

    @Test
    void aNewerVersionIsRefusedPolitely() {
        String newer = JSON.replace("run-record/3", "run-record/7").replace("\"seed\"", "\"mystery\"");
        assertThatThrownBy(() -> read(newer))
                .isInstanceOf(RecordException.class)
                .hasMessage("the run record cannot be read: schema: version 7 is newer than this program knows (3); "
                        + "use the Tracksoak that wrote it, or a newer one");
    }

    @Test
    void anErrorSaysWhatWhereWhyAndWhatToDo() {
        assertThatThrownBy(() -> read(JSON.replace("\"hangLimitS\": 30", "\"hangLimitS\": -30")))
                .hasMessage("the run record cannot be read: method.hangLimitS: it is -30.0, allowed is 0 or more; "
                        + "the record is damaged or was edited");
    }

    @Test
    void doesNotWriteWhatItWouldNotRead() {
        RunSketch run = RunSketch.good();
        run.phases.get(0).peakBacklogMs = Double.NaN;
        assertThatThrownBy(() -> RecordJson.write(run.record()))
                .isInstanceOf(RecordException.class)
                .hasMessageContaining("phases[0].peakBacklogMs");
    }

    public static RunRecord fullRecord() {
        RunSketch run = RunSketch.good();
        PhaseSketch take = run.phases.get(0);
        IntColumn ones = IntColumn.of(1, 1, 1);
        take.series =
                new Series(IntColumn.of(0, 4500, Integer.MAX_VALUE), ones, ones, ones, ones, ones, ones, ones, ones);
        take.streams = new StreamTotals(List.of(7L, 8L), List.of(0.0, 0.1), List.of(400.25, 1e7), List.of(1, 2));
        take.stalls.add(new Stall(1.5, 312.25, 0));
        take.overruns.add(new Overrun(2, 40, 32, 1 / 3.0));
        take.rounds = new RoundsFacts(900_000_000, 32, 450_000_000, 12.5);
        PhaseSketch playback = PhaseSketch.take(600, 4_608_000);
        playback.kind = PhaseKind.PLAYBACK;
        playback.playback = new PlaybackFacts(
                2,
                3,
                40.5,
                81,
                0,
                ReadBackFacts.Origin.DEVICE,
                new MixFacts(288_000, 1.5, 2, 900, 0, List.of(new Overrun(1, 1.5, 2, 0)), PhaseSketch.latency(3)));
        run.phases.add(playback);
        run.phases.get(2).fault = new Fault(Fault.Kind.READ_ONLY, 12, 99, "write to track-001", "\"<\u2028é𝄞");
        take.start = new StartFacts(60, 412.5, true);
        run.probes = new ProbeFacts(1024, 63_000_000_000L, "");
        take.device = new DeviceEvidence(4_608_000, 12, 4_608_000, 1234.5, 98_304L);
        run.port = new DriveFacts.Port("1d6b:0104", "1.00", "usb-storage", "2-1.4", List.of("keyboard"));
        run.volume = new DriveFacts.Volume("mbr", 1_048_576L, "SHOW A", true, "rw,noatime");
        run.temperatureC = -4.5;
        run.tag = "flight case 3 <blue>";
        run.ready = new ReadyFacts(4.25, 2.5, 3.125, true);
        run.phases.get(4).keepsake = new KeepsakeFacts(
                "017f22e2-79b0-7cc3-98c4-dc0c0c07398f", "2025-05-14T18:00:00Z", 276.5, 100_000_000, 3, 1, true);
        run.verdict = new Verdict(
                Verdict.Outcome.NO_VERDICT,
                "sentence",
                "scope",
                "barn-32",
                List.of(new Criterion("room", "a", "b", null, 1.25, "s", null, null, true, "c")),
                List.of("reason"),
                List.of("note"),
                new Estimate(
                        Verdict.Outcome.FAIL,
                        "an estimate",
                        List.of("refused"),
                        List.of(new Estimate.Figure("room", "a", "b", "c", true, null))),
                new Odds(
                        "odds",
                        List.of("refused"),
                        5400,
                        4000,
                        600,
                        0,
                        0.25,
                        new Odds.Fit(
                                512.5,
                                600,
                                2,
                                44,
                                264,
                                -0.125,
                                31.5,
                                0.5,
                                0.75,
                                0.0025,
                                0.0003,
                                0.011,
                                List.of(new Odds.Level(60, 530, 520, 540.5)),
                                List.of(new Odds.Seen(1200, 611)))));
        return run.record();
    }

    private static RunRecord read(String json) {
        return RecordJson.read(json.getBytes(StandardCharsets.UTF_8));
    }
}
