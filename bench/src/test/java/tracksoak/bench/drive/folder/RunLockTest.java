package tracksoak.bench.drive.folder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.drive.folder.RunLock.DriveInUseException;

@Timeout(120)
class RunLockTest {

    @TempDir
    Path state;

    @Test
    void keepsASecondRunOffTheSameDiskOnly() throws IOException {
        try (RunLock lock = RunLock.take(state, "disk-8-16", "run-a")) {
            assertThat(lock.held()).isTrue();
            assertThatThrownBy(() -> RunLock.take(state, "disk-8-16", "run-b"))
                    .isInstanceOf(DriveInUseException.class)
                    .hasMessageContaining(
                            "run run-a, process " + ProcessHandle.current().pid())
                    .hasMessageContaining("wait until it ends");
            RunLock.take(state, "disk-8-32", "run-b").close();
        }
        RunLock again = RunLock.take(state, "disk-8-16", "run-c");
        again.close();
        assertThat(again.held()).isFalse();
    }

    @Test
    void refusesAKeyThatIsAPath() {
        for (String key : new String[] {"", "../x", "a/b", "x".repeat(81)}) {
            assertThatThrownBy(() -> RunLock.take(state, key, "run-a")).isInstanceOf(IllegalArgumentException.class);
        }
    }

    @Test
    void goesWhenTheProcessIsKilled() throws Exception {
        Process other = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-Xshare:auto",
                        "-cp",
                        System.getProperty("java.class.path"),
                        Holder.class.getName(),
                        state.toString())
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
        try (BufferedReader out = other.inputReader(StandardCharsets.UTF_8)) {
            assertThat(out.readLine()).isEqualTo("held");
            assertThatThrownBy(() -> RunLock.take(state, "disk-8-16", "run-b"))
                    .isInstanceOf(DriveInUseException.class)
                    .hasMessageContaining("run run-of-another, process " + other.pid());
        } finally {
            other.destroyForcibly();
            assertThat(other.waitFor(30, TimeUnit.SECONDS)).isTrue();
        }
        RunLock.take(state, "disk-8-16", "run-b").close();
    }

    /** Another process that takes the lock and never lets go. */
    static final class Holder {

        private Holder() {}

        public static void main(String[] args) throws Exception {
            RunLock lock = RunLock.take(Path.of(args[0]), "disk-8-16", "run-of-another");
            System.out.println("held");
            // ends with its parent at the latest, whose end closes this stream
            System.in.read();
            lock.close();
        }
    }
}
