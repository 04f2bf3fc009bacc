package tracksoak.bench.command.console;

import java.io.File;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The process's own output channels. */
public final class Terminals {

    private Terminals() {}

    /** The console of this process. Its text is UTF-8, except on Windows, where it is what the system says. */
    public static Console ofThisProcess() {
        Charset charset = isWindows() ? Charset.defaultCharset() : StandardCharsets.UTF_8;
        return new Console(
                new PrintWriter(new FileOutputStream(FileDescriptor.out), false, charset),
                new PrintWriter(new FileOutputStream(FileDescriptor.err), true, charset),
                isTerminal(1),
                isTerminal(2),
                environment());
    }

    /** The environment, with the width of the terminal where a shell keeps that to itself. */
    private static Map<String, String> environment() {
        Map<String, String> environment = new HashMap<>(System.getenv());
        if (!environment.containsKey("COLUMNS") && (isTerminal(1) || isTerminal(2))) {
            width().ifPresent(columns -> environment.put("COLUMNS", columns));
        }
        return environment;
    }

    /** Columns of the terminal, as {@code stty} tells them; empty where there is none. */
    private static Optional<String> width() {
        try {
            Process asked = new ProcessBuilder("stty", "size")
                    .redirectInput(new File("/dev/tty"))
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
            try (InputStream said = asked.getInputStream()) {
                String[] size = new String(said.readNBytes(40), StandardCharsets.US_ASCII)
                        .strip()
                        .split(" ", -1);
                return size.length == 2 && !size[1].equals("0") ? Optional.of(size[1]) : Optional.empty();
            }
        } catch (IOException noTerminal) {
            return Optional.empty();
        }
    }

    /** Asks a question on the terminal and waits for the line typed; null where input is no terminal. */
    @SuppressWarnings("SystemConsoleNull")
    public static @Nullable String typedLine(String question) {
        java.io.Console console = System.console();
        return console == null || !isTerminal(0) ? null : console.readLine("%s", question);
    }

    /** Whether file descriptor {@code fd} is a terminal. */
    private static boolean isTerminal(int fd) {
        Path link = Path.of("/proc/self/fd", Integer.toString(fd));
        try {
            String target = Files.readSymbolicLink(link).toString();
            return target.startsWith("/dev/pts/") || target.startsWith("/dev/tty") || target.equals("/dev/console");
        } catch (IOException | UnsupportedOperationException noProcFolder) {
            return consoleIsTerminal();
        }
    }

    /** All that Java itself knows; from Java 22 on there is always a console, which then says whether it is a terminal. */
    @SuppressWarnings("SystemConsoleNull")
    private static boolean consoleIsTerminal() {
        java.io.Console console = System.console();
        if (console == null) {
            return false;
        }
        try {
            return (Boolean) java.io.Console.class.getMethod("isTerminal").invoke(console);
        } catch (ReflectiveOperationException olderJava) {
            return true;
        }
    }

    private static boolean isWindows() {
        return System.getProperty("os.name", "").toLowerCase(Locale.ROOT).startsWith("windows");
    }
}
