package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.ClimbResult;
import tracksoak.report.record.facts.ClimbStep;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Verdict.Outcome;
import tracksoak.report.record.json.RecordFormats;

/** The climb as people start it, on a real slow drive. */
@NeedsRig
class ClimbOnDrivesTest {

    private static final long RATE = 3_000_000;

    @TempDir
    Path host;

    private Program climb(Rig rig) {
        return Program.of(
                host,
                "climb",
                rig.path().toString(),
                "--session",
                "trio-8",
                "--file-systems",
                "ext4",
                "--reserve",
                "16MiB",
                "--length",
                "10s",
                "--most",
                "24",
                "--margin",
                "2",
                "--only-margin",
                "--fill-cap",
                "3s",
                "--short-take",
                "3s",
                "--take-before",
                "1s",
                "--take",
                "3s",
                "--out",
                host.resolve("out").toString());
    }

    /** At 3 MB/s no more than 20 tracks of 144,000 B/s fit at all, and with the margin of 2 no more than 10. */
    @Test
    void theAnswerIsNeverMoreThanTheDriveCarries() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXT4, 256)) {
            LeftOnDrive left = LeftOnDrive.before(rig.path());
            rig.drive().set(Faults.none().rate(RATE));
            try (Program climb = climb(rig)) {
                int code = climb.await();

                ClimbRecord record = record();
                ClimbResult result = Objects.requireNonNull(record.result());
                assertThat(record.state()).as(climb.output()).isEqualTo(RunState.COMPLETE);
                for (ClimbStep step : record.steps()) {
                    if (step.at() > RATE * 1.1 / 2 / Shows.TRACK) {
                        assertThat(step.carried()).as(step.toString()).isNotEqualTo(true);
                    }
                    if (Boolean.FALSE.equals(step.carried())) {
                        assertThat(step.missed()).as(step.toString()).containsAnyOf("rate-margin", "buffer-margin");
                    }
                }
                // a machine that others use may be too late for an answer
                assertThat(result.outcome()).as(climb.output()).isIn(Outcome.PASS, Outcome.NO_VERDICT);
                if (result.outcome() == Outcome.PASS) {
                    assertThat(Objects.requireNonNull(result.withMargin().at()))
                            .as(climb.output())
                            .isBetween(6, 11);
                    assertThat(code).isZero();
                } else {
                    assertThat(result.reasons()).isNotEmpty();
                    assertThat(code).isEqualTo(4);
                }
                assertThat(Files.exists(host.resolve("out/climb.html"))).isTrue();
            }
            left.nothing(rig.path());
        }
    }

    @Test
    void stoppedByAPersonItKeepsItsRecordAndCleansUp() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXT4, 256)) {
            LeftOnDrive left = LeftOnDrive.before(rig.path());
            rig.drive().set(Faults.none().rate(RATE));
            try (Program climb = climb(rig)) {
                assertThat(Host.await(60_000, () -> rig.drive().log().payloadBytes() > 0 || !climb.alive()))
                        .isTrue();
                climb.stop();

                assertThat(climb.await()).as(climb.output()).isIn(130, 143);
                ClimbRecord record = record();
                assertThat(record.state()).as(climb.output()).isEqualTo(RunState.INTERRUPTED);
                ClimbResult result = Objects.requireNonNull(record.result());
                assertThat(result.outcome()).isEqualTo(Outcome.NO_VERDICT);
                assertThat(result.withMargin().at()).isNull();
                assertThat(climb.output()).doesNotContain("\tat ");
            }
            left.nothing(rig.path());
        }
    }

    private ClimbRecord record() throws IOException {
        byte[] json = Files.readAllBytes(host.resolve("out/climb.json"));
        assertThat(new String(json, StandardCharsets.UTF_8)).contains("\"schema\"");
        return RecordFormats.CLIMB.read(json);
    }
}
