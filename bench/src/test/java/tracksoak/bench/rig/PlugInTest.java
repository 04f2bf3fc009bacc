package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Isolated;
import tracksoak.report.record.facts.ReadyFacts;

/** A drive that appears while the program waits for it. */
@NeedsRig
@Isolated("takes the next drive that appears")
class PlugInTest {

    @TempDir
    Path host;

    /** A loop device with a fresh file system, mounted once the program says that it waits. */
    @Test
    void aDriveThatIsMountedWhileItWaitsIsTimedAndTested() {
        try (Program run = Program.of(
                host,
                "qualify",
                "--wait",
                "--wait-limit",
                "60s",
                "--session",
                "trio-8",
                "--file-systems",
                "ext4",
                "--reserve",
                "16MiB",
                "--length",
                "60s",
                "--plan",
                "line-check",
                "--take",
                "2s",
                "--idle",
                "0s",
                "--out",
                host.resolve("out").toString())) {
            assertThat(Host.await(30_000, () -> run.output().contains("plug it in now")))
                    .as(run.output())
                    .isTrue();
            try (LoopMount loop = LoopMount.ext4(128)) {
                int code = run.await();
                assertThat(code).as(run.output()).isIn(0, 1, 4);
                assertThat(run.output()).contains("a drive is mounted at \"" + loop.path());
                ReadyFacts ready = Objects.requireNonNull(
                        tracksoak.report.record.json.RecordFile.load(host.resolve("out/record.json"))
                                .ready());
                assertThat(ready.deviceSeen())
                        .as("a loop device has no medium before its file")
                        .isTrue();
                assertThat(ready.usableS()).isGreaterThan(0).isGreaterThanOrEqualTo(ready.mountedS());
                assertThat(Files.exists(host.resolve("out/report.html"))).isTrue();
                assertThat(loop.path()).isDirectoryNotContaining("glob:**TRACKSOAK-*");
            }
        }
    }
}
