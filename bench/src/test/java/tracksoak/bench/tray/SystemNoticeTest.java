package tracksoak.bench.tray;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.profiles.base.SystemClocks;

/** Against a command of the system's name that writes down what it is given. */
@DisabledOnOs(OS.WINDOWS)
class SystemNoticeTest {

    @TempDir
    Path folder;

    @Test
    void whereTheSystemHasNoWayNothingIsKnownAndNothingHappens() {
        SystemNotice none = SystemNotice.of("Linux", Map.of("PATH", folder.toString() + ":" + "\0:"));
        assertThat(none.known()).isFalse();
        none.show("nobody sees this");
        assertThat(SystemNotice.of("Linux", Map.of()).known()).isFalse();
        assertThat(SystemNotice.of("Windows 11", Map.of("PATH", folder.toString()))
                        .known())
                .isFalse();
    }

    /** The map of its environment, unlike a question for one variable, keeps the spelling of the names: Path. */
    @Test
    void windowsSpellsTheSearchPathAsItLikes() throws IOException {
        Path command = Files.createFile(folder.resolve("powershell.exe"));
        Files.setPosixFilePermissions(command, PosixFilePermissions.fromString("rwx------"));
        assertThat(SystemNotice.of("Windows 11", Map.of("Path", folder.toString()))
                        .known())
                .isTrue();
        assertThat(SystemNotice.of("Mac OS X", Map.of("Path", folder.toString()))
                        .known())
                .isFalse();
    }

    @Test
    void whatIsToldIsOneArgumentHoweverItIsWritten() throws IOException {
        Path seen = folder.resolve("seen");
        Path command = Files.writeString(
                folder.resolve("notify-send"),
                "#!/bin/sh\nprintf '%s\\n' \"$@\" > '" + seen + ".half'\nmv '" + seen + ".half' '" + seen + "'\n");
        Files.setPosixFilePermissions(command, PosixFilePermissions.fromString("rwx------"));
        SystemNotice notice = SystemNotice.of("Linux", Map.of("PATH", folder + ":" + System.getenv("PATH")));
        assertThat(notice.known()).isTrue();
        notice.show("All done: $(touch x) \"--urgency\" 2 of 3 drives; passed.");
        long untilNs = SystemClocks.NANO.nanoTime() + TimeUnit.SECONDS.toNanos(20);
        while (!Files.exists(seen) && SystemClocks.NANO.nanoTime() < untilNs) {
            SystemClocks.PARK.waitUntil(SystemClocks.NANO.nanoTime() + TimeUnit.MILLISECONDS.toNanos(20));
        }
        assertThat(Files.readAllLines(seen))
                .containsExactly(
                        "--app-name=Tracksoak",
                        "--",
                        "Tracksoak",
                        "All done: $(touch x) \"--urgency\" 2 of 3 drives; passed.");
    }
}
