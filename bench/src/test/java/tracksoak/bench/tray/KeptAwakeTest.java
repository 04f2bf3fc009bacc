package tracksoak.bench.tray;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import tracksoak.profiles.base.SystemClocks;

class KeptAwakeTest {

    @Test
    void withoutTheSystemsCommandNothingKeepsItAwake() {
        try (KeptAwake awake = KeptAwake.begin(List.of("no-such-command-here", "--what=sleep"))) {
            assertThat(awake.how()).isEmpty();
        }
    }

    @Test
    @DisabledOnOs(OS.WINDOWS)
    void aCommandThatTheSystemRefusesKeepsNothingAwake() {
        try (KeptAwake awake = KeptAwake.begin(List.of("sh", "-c", "exit 1"))) {
            assertThat(awake.how()).isEmpty();
        }
    }

    /** What it says is true at the moment it is asked, not only when it began. */
    @Test
    @DisabledOnOs(OS.WINDOWS)
    void itIsSaidOnlyAsLongAsTheCommandLives() {
        KeptAwake awake = KeptAwake.begin(List.of("cat"));
        assertThat(awake.how()).isEqualTo("cat");
        awake.close();
        long untilNs = SystemClocks.NANO.nanoTime() + TimeUnit.SECONDS.toNanos(20);
        while (!awake.how().isEmpty() && SystemClocks.NANO.nanoTime() < untilNs) {
            SystemClocks.PARK.waitUntil(SystemClocks.NANO.nanoTime() + TimeUnit.MILLISECONDS.toNanos(10));
        }
        assertThat(awake.how()).isEmpty();
    }

    /** As caffeinate does, which waits for the end of a process: without this a page that stays open would keep it awake for ever. */
    @Test
    @DisabledOnOs(OS.WINDOWS)
    void aCommandThatReadsFromNoPipeEndsAsWell() {
        KeptAwake awake = KeptAwake.begin(List.of("sleep", "300"));
        assertThat(awake.how()).isEqualTo("sleep");
        awake.close();
        long untilNs = SystemClocks.NANO.nanoTime() + TimeUnit.SECONDS.toNanos(20);
        while (!awake.how().isEmpty() && SystemClocks.NANO.nanoTime() < untilNs) {
            SystemClocks.PARK.waitUntil(SystemClocks.NANO.nanoTime() + TimeUnit.MILLISECONDS.toNanos(10));
        }
        assertThat(awake.how()).isEmpty();
    }

    /** An argument with a space is put between quotes for Windows, and one inside would end it there. */
    @Test
    void nothingWindowsIsGivenHoldsAQuote() {
        assertThat(KeptAwake.words("Windows 11", 7)).noneMatch(word -> word.contains("\""));
    }

    @Test
    void eachSystemIsAskedItsOwnWay() {
        assertThat(KeptAwake.words("Linux", 7)).startsWith("systemd-inhibit").endsWith("cat");
        assertThat(KeptAwake.words("Mac OS X", 7)).containsExactly("caffeinate", "-i", "-s", "-w", "7");
        assertThat(String.join(" ", KeptAwake.words("Windows 11", 7))).contains("SetThreadExecutionState");
    }
}
