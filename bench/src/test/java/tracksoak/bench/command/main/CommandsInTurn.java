package tracksoak.bench.command.main;

import java.io.FileOutputStream;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import tracksoak.bench.command.console.Console;
import tracksoak.profiles.base.SystemClocks;

/**
 * Runs commands that others ask for, each on a thread of its own, until it is ended from outside: where a processor is
 * emulated, a program takes long to start. Who asks makes a folder with the command's {@code words}, a line each, and a pipe
 * {@code said}, and then a file {@code ask}; once the pipe ends, {@code code} holds the exit code.
 */
public final class CommandsInTurn {

    private static final long LOOK_NS = Duration.ofMillis(50).toNanos();

    private CommandsInTurn() {}

    /**
     * Never ends.
     *
     * @param args the folder in which those folders are made
     */
    public static void main(String[] args) throws IOException {
        while (true) {
            try (DirectoryStream<Path> asked = Files.newDirectoryStream(Path.of(args[0]))) {
                for (Path one : asked) {
                    if (Files.deleteIfExists(one.resolve("ask"))) {
                        new Thread(() -> run(one), one.toString()).start();
                    }
                }
            }
            SystemClocks.PARK.waitUntil(SystemClocks.NANO.nanoTime() + LOOK_NS);
        }
    }

    private static void run(Path asked) {
        try (FileOutputStream said = new FileOutputStream(asked.resolve("said").toFile());
                PrintWriter out = new PrintWriter(said, false, StandardCharsets.UTF_8);
                PrintWriter err = new PrintWriter(said, true, StandardCharsets.UTF_8)) {
            Console console = new Console(out, err, false, false, System.getenv());
            int code;
            try {
                code = Main.run(console, Files.readAllLines(asked.resolve("words")));
            } catch (RuntimeException | Error unforeseen) {
                code = new FailedCommand(console).handle(unforeseen);
            }
            out.flush();
            Files.writeString(asked.resolve("code"), Integer.toString(code));
        } catch (IOException nobodyHears) {
            throw new UncheckedIOException(nobodyHears);
        }
    }
}
