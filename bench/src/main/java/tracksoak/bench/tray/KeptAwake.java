package tracksoak.bench.tray;

import java.io.File;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * Keeps the computer from going to sleep, by the system's own way, for as long as this process lives: the helper waits for the end
 * of a pipe that only this process holds, so that it goes even if this process is killed.
 */
public final class KeptAwake implements AutoCloseable {

    /** A helper that the system refuses ends within this time, in ms. */
    private static final long REFUSED_MS = 400;

    // ES_CONTINUOUS and ES_SYSTEM_REQUIRED. Without a quote: Java gives Windows those inside an argument as they are,
    // which ends it
    private static final String WINDOWS = "Add-Type -Namespace T -Name S -MemberDefinition"
            + " ('[DllImport(' + [char]34 + 'kernel32.dll' + [char]34 + ')]"
            + " public static extern uint SetThreadExecutionState(uint f);');"
            + " [void][T.S]::SetThreadExecutionState(2147483649); [void][Console]::In.ReadToEnd()";

    private final @Nullable Process helper;
    private final String how;

    private KeptAwake(@Nullable Process helper, String how) {
        this.helper = helper;
        this.how = how;
    }

    /** Begins. Where the system has no way, or refuses, nothing is done. */
    public static KeptAwake begin() {
        return begin(
                words(System.getProperty("os.name", ""), ProcessHandle.current().pid()));
    }

    static KeptAwake begin(List<String> words) {
        try {
            Process helper = new ProcessBuilder(words)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
            if (helper.waitFor(REFUSED_MS, TimeUnit.MILLISECONDS)) {
                return new KeptAwake(null, "");
            }
            return new KeptAwake(helper, new File(words.get(0)).getName());
        } catch (IOException none) {
            return new KeptAwake(null, "");
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return new KeptAwake(null, "");
        }
    }

    /**
     * The helper's command.
     *
     * @param system name of the operating system
     * @param pid of the process that must not be put to sleep
     */
    static List<String> words(String system, long pid) {
        String os = system.toLowerCase(Locale.ROOT);
        if (os.startsWith("windows")) {
            return List.of("powershell", "-NoProfile", "-Command", WINDOWS);
        }
        if (os.startsWith("mac")) {
            return List.of("caffeinate", "-i", "-s", "-w", Long.toString(pid));
        }
        return List.of(
                "systemd-inhibit",
                "--what=sleep:idle:handle-lid-switch",
                "--who=Tracksoak",
                "--why=A drive is being tested",
                "--mode=block",
                "cat");
    }

    /** By what it is kept awake now, empty if it is not. */
    public String how() {
        return helper != null && helper.isAlive() ? how : "";
    }

    @Override
    public void close() {
        if (helper != null) {
            try {
                helper.getOutputStream().close();
            } catch (IOException gone) {
                return; // it has ended already
            } finally {
                helper.destroy(); // caffeinate reads from no pipe
            }
        }
    }
}
