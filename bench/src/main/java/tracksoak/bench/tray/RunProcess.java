package tracksoak.bench.tray;

import java.io.File;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/**
 * Starts a run as a process of its own, which outlives the one that started it: the page may be closed, the bench may end, Ctrl-C
 * may be pressed there. Any thread.
 */
public class RunProcess {

    /** As the launcher starts what measures: everything is there before the first byte. */
    private static final List<String> MEASURING = List.of(
            "-XX:+UseSerialGC",
            "-Xms112m",
            "-Xmx112m",
            "-XX:+AlwaysPreTouch",
            "-XX:MaxDirectMemorySize=1g",
            "-Xlog:disable",
            "-Xlog:all=error:stderr");

    /** Signals that are ignored when a program starts stay ignored in it (POSIX, exec). */
    private static final List<String> UNHEARD = List.of("sh", "-c", "trap '' INT HUP; exec \"$@\"", "sh");

    private static final String MAIN = "tracksoak.bench.command.main.Main";

    private final Map<String, String> environment;

    /** @param environment further variables for the process */
    public RunProcess(Map<String, String> environment) {
        this.environment = Map.copyOf(environment);
    }

    /**
     * Starts it.
     *
     * @param run its folder on the {@link RunShelf}
     */
    public void start(RunOrder order, Path run) {
        List<String> line = new ArrayList<>();
        if (!System.getProperty("os.name", "").toLowerCase(Locale.ROOT).startsWith("windows")) {
            line.addAll(UNHEARD);
        }
        line.add(Path.of(System.getProperty("java.home", ""), "bin", "java").toString());
        line.addAll(MEASURING);
        line.addAll(List.of("-cp", classPath(), MAIN));
        line.addAll(order.words());
        line.addAll(List.of("--out", order.folder(), "--live", run.toString()));
        ProcessBuilder builder = new ProcessBuilder(line)
                .redirectErrorStream(true)
                .redirectInput(ProcessBuilder.Redirect.from(nothing()))
                .redirectOutput(
                        ProcessBuilder.Redirect.to(run.resolve(RunShelf.SAID).toFile()));
        builder.environment().putAll(environment);
        try {
            builder.start();
        } catch (IOException e) {
            throw Problem.cannot(
                    "the run cannot be started (" + Inert.whole(String.valueOf(e.getMessage())) + ")",
                    "see that the program is whole: install it again");
        }
    }

    /** Test runners keep the real one elsewhere. */
    private static String classPath() {
        return System.getProperty("surefire.test.class.path", System.getProperty("java.class.path", ""));
    }

    private static File nothing() {
        return new File(File.separatorChar == '\\' ? "NUL" : "/dev/null");
    }
}
