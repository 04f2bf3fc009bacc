package tracksoak.bench.command;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/** The process's own output channels. */
final class Terminals {

    private Terminals() {}

    /** The console of this process. Its text is UTF-8, except on Windows, where it is what the system says. */
    static Console ofThisProcess() {
        Charset charset = isWindows() ? Charset.defaultCharset() : StandardCharsets.UTF_8;
        return new Console(
                new PrintWriter(new FileOutputStream(FileDescriptor.out), false, charset),
                new PrintWriter(new FileOutputStream(FileDescriptor.err), true, charset),
                isTerminal(1),
                isTerminal(2),
                System.getenv());
    }

    /** Whether file descriptor {@code fd} is a terminal. */
    private static boolean isTerminal(int fd) {
        Path link = Path.of("/proc/self/fd", Integer.toString(fd));
        try {
            String target = Files.readSymbolicLink(link).toString();
            return target.startsWith("/dev/pts/") || target.startsWith("/dev/tty") || target.equals("/dev/console");
        } catch (IOException | UnsupportedOperationException noProcFolder) {
            // Where there is no such folder, Java knows only whether both ends of the process are one console.
            return System.console() != null;
        }
    }

    private static boolean isWindows() {
        return System.getProperty("os.name", "").toLowerCase(Locale.ROOT).startsWith("windows");
    }
}
