package tracksoak.bench.rig;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import tracksoak.profiles.base.SystemClocks;

/** The rig's way to this machine: every wait has a limit, so that a dead drive never takes a test down with it. */
public final class Host {

    private static final long LIMIT_S = 20;
    private static final long POLL_NS = 10_000_000;

    private Host() {}

    /**
     * Runs a command to its end.
     *
     * @return what it printed, both streams
     * @throws IllegalStateException if it fails or takes longer than 20 s
     */
    public static String run(String... command) {
        Result result = attempt(LIMIT_S, command);
        if (result.exit() != 0) {
            throw new IllegalStateException(
                    String.join(" ", command) + " ended with " + result.exit() + ": " + result.output());
        }
        return result.output();
    }

    /** Runs a command for at most {@code limitS} s; a command that fails or takes longer is no error here. */
    public static Result attempt(long limitS, String... command) {
        try {
            Path output = Files.createTempFile("tracksoak-rig-", ".out");
            try {
                String[] found = command.clone();
                found[0] = RigCondition.find(command[0])
                        .orElseThrow(() -> new IllegalStateException(command[0] + " is not installed"))
                        .toString();
                Process process = new ProcessBuilder(found)
                        .redirectErrorStream(true)
                        .redirectInput(Path.of("/dev/null").toFile())
                        .redirectOutput(output.toFile())
                        .start();
                boolean ended = process.waitFor(limitS, TimeUnit.SECONDS);
                if (!ended) {
                    process.destroyForcibly();
                }
                String text = Files.readString(output, StandardCharsets.UTF_8).strip();
                return ended
                        ? new Result(process.exitValue(), text)
                        : new Result(-1, "no end after " + limitS + " s. " + text);
            } finally {
                Files.delete(output);
            }
        } catch (IOException e) {
            throw new UncheckedIOException("cannot run " + Arrays.toString(command), e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return new Result(-1, "interrupted");
        }
    }

    /** Polls {@code condition} for at most {@code limitMs}; says whether it came true. */
    static boolean await(long limitMs, BooleanSupplier condition) {
        long deadlineNs = SystemClocks.NANO.nanoTime() + limitMs * 1_000_000;
        while (!condition.getAsBoolean()) {
            long now = SystemClocks.NANO.nanoTime();
            if (now > deadlineNs) {
                return false;
            }
            SystemClocks.PARK.waitUntil(now + POLL_NS);
        }
        return true;
    }

    /** Text of a small file, empty if it cannot be read. */
    static String text(Path file) {
        try {
            return Files.readString(file, StandardCharsets.UTF_8).strip();
        } catch (IOException e) {
            return "";
        }
    }

    /** Drops clean pages, names and inodes of the whole machine, so that reads through FUSE reach the drive. */
    static void dropCaches() {
        write(Path.of("/proc/sys/vm/drop_caches"), "3\n");
    }

    static void write(Path file, String text) {
        try {
            Files.writeString(file, text, StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot write " + file, e);
        }
    }

    /**
     * How a command ended.
     *
     * @param exit the exit code, -1 if it had to be ended
     * @param output both streams
     */
    public record Result(int exit, String output) {}
}
