package tracksoak.bench.tray;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Pattern;

/**
 * Tells the person at this computer something by the system's own way, where it has one. What is told goes through the environment of
 * the system's command, where nothing in it can be taken for one. Any thread.
 */
public final class SystemNotice {

    private static final String TEXT = "TRACKSOAK_NOTICE";

    private static final String WINDOWS = "Add-Type -AssemblyName System.Windows.Forms, System.Drawing;"
            + " $n = New-Object System.Windows.Forms.NotifyIcon; $n.Icon = [System.Drawing.SystemIcons]::Information;"
            + " $n.Visible = $true; $n.ShowBalloonTip(10000, 'Tracksoak', $env:" + TEXT + ", 'None');"
            + " Start-Sleep 10; $n.Dispose()";

    private final List<String> words;
    private final Map<String, String> environment;

    private SystemNotice(List<String> words, Map<String, String> environment) {
        this.words = words;
        this.environment = environment;
    }

    /** That of this computer. */
    public static SystemNotice here() {
        return of(System.getProperty("os.name", ""), System.getenv());
    }

    /**
     * That of a computer.
     *
     * @param system name of the operating system
     * @param environment its {@code PATH} says where commands are; Windows spells it {@code Path}
     */
    static SystemNotice of(String system, Map<String, String> environment) {
        String os = system.toLowerCase(Locale.ROOT);
        List<String> words = os.startsWith("windows")
                ? List.of("powershell", "-NoProfile", "-Command", WINDOWS)
                : os.startsWith("mac")
                        ? List.of(
                                "osascript",
                                "-e",
                                "display notification (system attribute \"" + TEXT + "\") with title \"Tracksoak\"")
                        : List.of("sh", "-c", "exec notify-send --app-name=Tracksoak -- Tracksoak \"$" + TEXT + "\"");
        String command = os.startsWith("windows") || os.startsWith("mac") ? words.get(0) : "notify-send";
        boolean known = environment.entrySet().stream()
                .filter(variable -> variable.getKey().equals("PATH")
                        || (os.startsWith("windows") && variable.getKey().equalsIgnoreCase("PATH")))
                .anyMatch(variable -> found(command, variable.getValue()));
        return new SystemNotice(known ? words : List.of(), environment);
    }

    private static boolean found(String command, String path) {
        for (String folder : path.split(Pattern.quote(File.pathSeparator), -1)) {
            try {
                if (!folder.isEmpty()
                        && (Files.isExecutable(Path.of(folder, command))
                                || Files.isExecutable(Path.of(folder, command + ".exe")))) {
                    return true;
                }
            } catch (InvalidPathException none) {
                // no folder, so no command in it
            }
        }
        return false;
    }

    /** Whether there is a way at all. */
    public boolean known() {
        return !words.isEmpty();
    }

    /** Shows it; nothing where there is no way, or the system refuses. */
    public void show(String text) {
        if (words.isEmpty()) {
            return;
        }
        ProcessBuilder builder = new ProcessBuilder(words)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .redirectError(ProcessBuilder.Redirect.DISCARD);
        builder.environment().putAll(environment);
        builder.environment().put(TEXT, text);
        try {
            builder.start().getOutputStream().close();
        } catch (IOException refused) {
            return; // a notice that is not seen changes nothing: the page says it, too
        }
    }
}
