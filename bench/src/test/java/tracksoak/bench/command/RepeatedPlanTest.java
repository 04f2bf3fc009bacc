package tracksoak.bench.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.job.Rooms;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordFile;

/** A requalification does again what was done, whatever it was. */
class RepeatedPlanTest {

    @TempDir
    Path folder;

    private Rooms rooms;
    private int runs;

    @BeforeEach
    void furnish() throws IOException {
        Path host = Files.createDirectory(folder.resolve("host"));
        rooms = new TestRooms(host, List.of());
    }

    private Typed type(String line) {
        return Typed.run(rooms, line.split(" "));
    }

    private RunRecord made(String line) {
        Path out = folder.resolve("host/records/" + runs++);
        Typed typed = type(line + " --out " + out);
        assertThat(typed.code()).as(typed.err()).isIn(0, 1);
        return RecordFile.load(out.resolve("record.json"));
    }

    private static PlanFacts plan(RunRecord run) {
        return run.plan().besides(0, "");
    }

    private static List<PhaseKind> kinds(RunRecord run) {
        return run.phases().stream().map(PhaseFacts::kind).toList();
    }

    /** The drive is the same seeded one, so that what a phase wrote and how long it took must come out the same, too. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "nearly-full-stick --session trio-8 --plan line-check",
                "nearly-full-stick --session trio-8 --plan line-check --take 20s --playback 10s",
                "nearly-full-stick --session trio-8 --plan sound-check",
                "nearly-full-stick --session trio-8 --plan sound-check --take 70s --take-before 20s --fill-cap 40s",
                "nearly-full-stick --session trio-8 --plan sound-check --take 30s --playback 30s",
                "nearly-full-stick --session trio-8 --plan sound-check --idle 90s",
                "nearly-full-stick --session trio-8 --length 3min --plan full-show",
                "nearly-full-stick --session trio-8 --length 3min --plan full-show --take 1min --playback 20s",
                "nearly-full-stick --session trio-8 --length 3min --plan full-show --fill-cap 10s",
                "nearly-full-stick --session playback-16 --plan line-check",
                "nearly-full-stick --session playback-16 --plan sound-check --playback 45s",
                "nearly-full-stick --session playback-16 --length 3min --plan full-show",
                "nearly-full-stick --session playback-16 --length 3min --plan full-show --fill-cap 10s --playback 20s",
                "nearly-full-stick --session mixdown-32 --plan line-check --playback 20s",
                "nearly-full-stick --session mixdown-32 --length 2min --plan sound-check",
                "nearly-full-stick --session mixdown-32 --length 2min --plan full-show",
                "steady-ssd --session archive-32 --plan line-check",
                "steady-ssd --session archive-32 --plan line-check --take 20s",
                "steady-ssd --session archive-32 --length 10min --plan sound-check --fill-cap 30s",
                "steady-ssd --session archive-32 --length 10min --plan sound-check",
                "nearly-full-stick --session archive-32 --length 3min --plan full-show",
                "nearly-full-stick --session archive-32 --length 3min --plan full-show --fill-cap 10s",
            })
    void whatWasDoneIsDoneAgain(String asked) {
        RunRecord last = made("qualify --simulated " + asked);
        Typed typed = type("requalify --simulated " + asked.substring(0, asked.indexOf(' ')) + " --json --out " + folder
                + "/again");
        assertThat(typed.code()).as(typed.err()).isIn(0, 1);
        assertThat(typed.err()).doesNotContain("can then not be compared");
        assertThat(typed.out()).contains("\"compared\": true").doesNotContain("\"compared\": false");
        RunRecord again = RecordFile.load(folder.resolve("again/record.json"));
        assertThat(again.session()).isEqualTo(last.session());
        assertThat(plan(again)).isEqualTo(plan(last));
        assertThat(again.plan().requalifies()).isEqualTo(last.id());
        assertThat(kinds(again)).isEqualTo(kinds(last));
        for (int i = 0; i < last.phases().size(); i++) {
            assertThat(again.phases().get(i).bytes())
                    .isEqualTo(last.phases().get(i).bytes());
            assertThat(again.phases().get(i).seconds())
                    .isEqualTo(last.phases().get(i).seconds());
        }
    }

    /** Sound-checks once left a drive alone for 1 min before each take; that was their own time and is none that was given. */
    @Test
    void anOlderSoundCheckIsRepeatedAsOneOfToday() throws IOException {
        made("qualify --simulated nearly-full-stick --session trio-8 --plan sound-check");
        Path record = folder.resolve("host/records/0/record.json");
        String older = Files.readString(record).replaceFirst("\"idleS\": ?10(\\.0)?", "\"idleS\":60.0");
        assertThat(older).contains("\"idleS\":60.0");
        Files.writeString(record, older);
        Typed typed = type("requalify --simulated nearly-full-stick --json --dry-run");
        assertThat(typed.code()).as(typed.err()).isZero();
        assertThat(typed.out()).contains("\"shortened\": false");
    }

    /** What was asked for along with the repetition counts, and the rest stays. */
    @ParameterizedTest
    @CsvSource({
        "trio-8, full-show, --length 3min, --length 2min, 120, 0, 0",
        "trio-8, full-show, --length 3min --take 1min, --length 2min, 60, 0, 0",
        "trio-8, full-show, --length 3min, --take 50s, 50, 0, 0",
        "trio-8, line-check, --take 40s, --playback 10s, 40, 0, 10",
        "playback-16, full-show, --length 3min, --length 2min, 0, 120, 120",
        "playback-16, line-check, --playback 30s, --playback 20s, 0, 20, 20",
        "mixdown-32, line-check, --playback 30s, --plan sound-check, 0, 600, 600",
        "archive-32, line-check, --take 30s --length 3min, --length 2min, 0, 120, 0",
    })
    void whatIsGivenCountsInstead(
            String session, String plan, String first, String then, double take, double copy, double playback) {
        made("qualify --simulated nearly-full-stick --session " + session + " --plan " + plan + " " + first);
        Typed typed = type("requalify --simulated nearly-full-stick --json --dry-run " + then);
        assertThat(typed.code()).as(typed.err()).isZero();
        assertThat(typed.out())
                .contains("\"takeAfterS\": " + take)
                .contains("\"copyS\": " + copy)
                .contains("\"playbackS\": " + playback);
        assertThat(typed.err()).contains("can then not be compared");
    }

    /** Times of a recording would mean something else for an archive: only the plan's name is kept. */
    @Test
    void aSessionOfAnotherKindKeepsThePlansNameOnly() {
        made("qualify --simulated nearly-full-stick --session trio-8 --plan sound-check --take 30s --take-before 20s");
        for (String session : List.of("playback-16", "mixdown-32", "archive-32")) {
            Typed typed = type("requalify --simulated nearly-full-stick --json --dry-run --session " + session);
            assertThat(typed.code()).as(typed.err()).isZero();
            assertThat(typed.out()).contains("\"name\": \"sound-check\"", "\"shortened\": false");
        }
    }
}
