package tracksoak.bench.drive.folder;

import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;

/**
 * The small file in a run's folder that says whose it is.
 *
 * @param runId UUID of the run
 * @param startedAt ISO-8601 instant in UTC
 * @param pid process of the run, on the computer it ran on
 * @param pidStartedMs when that process began, in ms since 1970, 0 if the system does not tell
 * @param record where the run's record lies on the computer it ran on, as people are shown it: so a marker read back is
 *     equal to the one written
 */
public record RunMarker(String runId, String startedAt, long pid, long pidStartedMs, String record) {

    /** Name of the file. */
    public static final String NAME = ".tracksoak-run";

    /** Longest marker in bytes. */
    static final int LONGEST = 4096;

    private static final String TITLE = "tracksoak run folder 1";
    private static final Pattern RUN = Pattern.compile("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}");

    /** The system tells the start of a process to 10 ms; a corrected wall clock shifts it by a little. */
    private static final long TOLERANCE_MS = 2_000;

    public RunMarker {
        if (!RUN.matcher(runId).matches()) {
            throw new IllegalArgumentException("no id of a run: " + Inert.text(runId));
        }
        record = Inert.text(record);
    }

    /** Name of the folder of a run: the last eight characters of a UUIDv7 are random, the first tell the time only. */
    public static String folderName(String runId) {
        return "TRACKSOAK-" + runId.substring(runId.length() - 8);
    }

    /** The text to write. */
    public String text() {
        return TITLE + "\nA test run of a drive made this folder. When no run goes on it is safe to delete.\nrun="
                + runId + "\nstarted=" + startedAt + "\npid=" + pid + "\npid-started=" + pidStartedMs + "\nrecord="
                + record + "\n";
    }

    /** Reads a marker; empty if it is none. */
    static Optional<RunMarker> parse(String text) {
        if (text.length() > LONGEST || !text.startsWith(TITLE + "\n")) {
            return Optional.empty();
        }
        Map<String, String> values = new HashMap<>();
        for (String line : text.split("\n", -1)) {
            int equals = line.indexOf('=');
            if (equals > 0) {
                values.putIfAbsent(line.substring(0, equals), line.substring(equals + 1));
            }
        }
        String run = values.get("run");
        String started = values.get("started");
        if (run == null || started == null || !RUN.matcher(run).matches()) {
            return Optional.empty();
        }
        try {
            return Optional.of(new RunMarker(
                    run,
                    Instant.parse(started).toString(),
                    Long.parseLong(values.getOrDefault("pid", "")),
                    Long.parseLong(values.getOrDefault("pid-started", "")),
                    values.getOrDefault("record", "")));
        } catch (NumberFormatException | DateTimeParseException e) {
            return Optional.empty();
        }
    }

    /** Whether the run's process is still there. Another that got the same number began at another time. */
    boolean alive() {
        Optional<ProcessHandle> process = pid > 0 ? ProcessHandle.of(pid) : Optional.empty();
        return process.isPresent() && process.get().isAlive() && sameStart(startMs(process.get()));
    }

    private boolean sameStart(long startMs) {
        return startMs == 0 || pidStartedMs == 0 || Math.abs(startMs - pidStartedMs) <= TOLERANCE_MS;
    }

    /** When a process began, in ms since 1970, 0 if the system does not tell. */
    static long startMs(@Nullable ProcessHandle process) {
        return process == null
                ? 0
                : process.info().startInstant().map(Instant::toEpochMilli).orElse(0L);
    }
}
