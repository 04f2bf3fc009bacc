package tracksoak.bench.rig;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import tracksoak.bench.command.ReadyProgram;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordFile;

/** The whole program in a process of its own, which can be killed. Its folders on the host are the test's. */
final class Program implements AutoCloseable {

    private final Process process;
    private final Path output;
    private final Path out;

    private Program(Process process, Path output, Path out) {
        this.process = process;
        this.output = output;
        this.out = out;
    }

    /** The same with no file of it above {@code bytes}. */
    static Program limited(Path host, long bytes, Path drive, String... options) {
        // POSIX: in units of 512 bytes
        return qualify(host, List.of("sh", "-c", "ulimit -f " + bytes / 512 + "; exec \"$@\"", "sh"), drive, options);
    }

    /** Starts {@code tracksoak qualify} for eight tracks; record and report go to a new folder under {@code host}. */
    static Program qualify(Path host, Path drive, String... options) {
        return qualify(host, List.of(), drive, options);
    }

    private static Program qualify(Path host, List<String> starter, Path drive, String... options) {
        Path out = host.resolve("out-" + host.toFile().list().length);
        List<String> arguments = new ArrayList<>(List.of(
                "qualify",
                drive.toString(),
                "--session",
                "trio-8",
                "--file-systems",
                "ext4",
                "--reserve",
                "16MiB",
                "--length",
                "60s",
                "--idle",
                "0s",
                "--out",
                out.toString()));
        arguments.addAll(Arrays.asList(options));
        return start(host, out, starter, arguments);
    }

    /** Starts any command. */
    static Program of(Path host, String... arguments) {
        return start(host, host, List.of(), List.of(arguments));
    }

    private static Program start(Path host, Path out, List<String> starter, List<String> arguments) {
        try {
            Path output = Files.createTempFile(host, "output-", ".txt");
            List<String> command = new ArrayList<>(starter);
            command.addAll(ReadyProgram.started());
            command.addAll(arguments);
            ProcessBuilder builder = new ProcessBuilder(command)
                    .redirectErrorStream(true)
                    .redirectInput(Path.of("/dev/null").toFile())
                    .redirectOutput(output.toFile());
            builder.environment()
                    .putAll(Map.of(
                            "HOME",
                            host.toString(),
                            "XDG_CONFIG_HOME",
                            host.resolve("config").toString(),
                            "XDG_DATA_HOME",
                            host.resolve("data").toString(),
                            "XDG_CACHE_HOME",
                            host.resolve("cache").toString(),
                            "XDG_STATE_HOME",
                            host.resolve("state").toString()));
            return new Program(builder.start(), output, out);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot start the program", e);
        }
    }

    /** The record as it is on the host right now, empty if there is none yet. */
    Optional<RunRecord> record() {
        try {
            return Files.exists(out.resolve("record.json"))
                    ? Optional.of(RecordFile.load(out.resolve("record.json")))
                    : Optional.empty();
        } catch (RecordException e) {
            throw new AssertionError("a record that cannot be read", e);
        }
    }

    boolean reported() {
        return Files.exists(out.resolve("report.html"));
    }

    /** Waits until the record names these finished phases; false if the process ended before. */
    boolean awaitPhases(PhaseKind... done) {
        List<PhaseKind> wanted = List.of(done);
        return Host.await(60_000, () -> !process.isAlive() || (record().isPresent() && kinds().equals(wanted)))
                && process.isAlive();
    }

    /** Finished phases in the record. */
    List<PhaseKind> kinds() {
        return record().stream()
                .flatMap(record -> record.phases().stream())
                .filter(phase -> phase.complete())
                .map(phase -> phase.kind())
                .toList();
    }

    /** SIGKILL. */
    void kill() {
        process.destroyForcibly();
        await();
    }

    /** SIGTERM. */
    void stop() {
        process.destroy();
    }

    boolean alive() {
        return process.isAlive();
    }

    /** Waits for its end, at most 90 s; the exit code. */
    int await() {
        try {
            if (!process.waitFor(90, TimeUnit.SECONDS)) {
                throw new AssertionError("the program has not ended: " + output());
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AssertionError(e);
        }
        return process.exitValue();
    }

    /** What it printed so far, both streams. */
    String output() {
        return Host.text(output);
    }

    @Override
    public void close() {
        process.destroyForcibly();
    }
}
