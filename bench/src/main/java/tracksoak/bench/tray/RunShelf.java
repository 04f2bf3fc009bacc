package tracksoak.bench.tray;

import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.KebabCase;
import tracksoak.profiles.base.OwnersOnly;
import tracksoak.profiles.base.Problem;

/**
 * The runs of this computer that were asked for, each in a folder of its own with its order and its state. Processes share it:
 * whoever asks writes the order, the run itself writes its state, everyone reads. Any thread.
 */
public final class RunShelf {

    /** Runs shown and kept; the oldest that are over go first. */
    static final int MOST_RUNS = 200;

    private static final Pattern ID = Pattern.compile("[0-9a-f]{32}");
    private static final String ORDER = "order.json";
    private static final String STATE = "state.json";
    private static final String STOP = "stop";

    /** What the run's process prints. */
    static final String SAID = "said.txt";

    private static final int MOST_BYTES = 256 << 10;
    private static final Duration BEGINNING = Duration.ofSeconds(30);
    private static final Duration SAME_START = Duration.ofSeconds(2);
    private static final ObjectMapper JSON = JsonMapper.builder()
            .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
            .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
            .build();

    private final Path folder;
    private final EpochClock clock;

    /** What is over does not change any more, and is read once. */
    private final Map<String, Sheet> over = new ConcurrentHashMap<>();

    /** @param stateFolder of this computer */
    public RunShelf(Path stateFolder, EpochClock clock) {
        this.folder = stateFolder.resolve("runs");
        this.clock = clock;
    }

    /**
     * A run with how it gets on.
     *
     * @param alive whether its process is there, or about to be
     */
    public record Sheet(RunOrder order, LiveState state, boolean alive) {

        /** Whether it ended without saying so: the process was killed, or the computer went off. */
        public boolean cutShort() {
            return !alive && state.stage() != LiveState.Stage.OVER;
        }
    }

    /** Puts an order down. Nothing is started. */
    public Path put(RunOrder order) {
        Path run = folder.resolve(checked(order.id()));
        try {
            OwnersOnly.folder(folder);
            AtomicFile.write(run.resolve(ORDER), JSON.writeValueAsBytes(order));
            AtomicFile.write(run.resolve(STATE), JSON.writeValueAsBytes(LiveState.begins(clock.epochMillis())));
        } catch (IOException e) {
            throw Problem.cannot(
                    "the run cannot be noted in " + Inert.quoted(run) + " (" + Problem.reason(e) + ")",
                    "see that there is room and that this user may write there");
        }
        tidy();
        return run;
    }

    /** All runs, the newest first. What cannot be read is left out. */
    public List<Sheet> all() {
        List<String> ids = ids();
        over.keySet().retainAll(ids);
        List<Sheet> sheets = new ArrayList<>();
        for (String id : ids) {
            byId(id).ifPresent(sheets::add);
        }
        sheets.sort(Comparator.comparingLong((Sheet sheet) -> sheet.order().askedMs())
                .reversed()
                .thenComparing(sheet -> sheet.order().id()));
        return sheets;
    }

    /** One run; empty where there is none of that id. */
    public Optional<Sheet> byId(String id) {
        if (!ID.matcher(id).matches()) {
            return Optional.empty();
        }
        Sheet known = over.get(id);
        if (known != null) {
            return Optional.of(known);
        }
        RunOrder order = read(folder.resolve(id).resolve(ORDER), RunOrder.class);
        LiveState state = read(folder.resolve(id).resolve(STATE), LiveState.class);
        if (order == null || state == null || !order.id().equals(id)) {
            return Optional.empty();
        }
        Sheet sheet = new Sheet(order, state, alive(state));
        if (state.stage() == LiveState.Stage.OVER) {
            over.put(id, sheet);
        }
        return Optional.of(sheet);
    }

    private boolean alive(LiveState state) {
        if (state.stage() == LiveState.Stage.OVER) {
            return false;
        }
        if (state.stage() == LiveState.Stage.BEGINS) {
            return clock.epochMillis() - state.saidMs() < BEGINNING.toMillis();
        }
        return ProcessHandle.of(state.pid())
                .filter(ProcessHandle::isAlive)
                // a dead one that nobody has asked for yet runs no program
                .filter(process -> process.info().command().isPresent())
                .filter(process -> process.info()
                        .startInstant()
                        .map(start -> state.processMs() == 0
                                || Math.abs(start.toEpochMilli() - state.processMs()) < SAME_START.toMillis())
                        .orElse(true))
                .isPresent();
    }

    /** Asks a run to end soon; what it measured is kept. */
    public void stop(String id) {
        Path run = folder.resolve(checked(id));
        if (Files.isDirectory(run)) {
            try {
                AtomicFile.write(run.resolve(STOP), new byte[0]);
            } catch (IOException e) {
                throw Problem.cannot(
                        "the run cannot be told to stop (" + Problem.reason(e) + ")", "unplug the drive, or try again");
            }
        }
    }

    /** What may be done once about a run, whoever looks after its tray. */
    enum Once {
        /** Do it again. */
        AGAIN,
        /** Tell that its tray is over. */
        TOLD;

        private String file() {
            return KebabCase.of(this);
        }
    }

    /** Whether it is this caller's, and no other's on this computer, to do that. */
    boolean first(String id, Once what) {
        try {
            Files.createFile(folder.resolve(checked(id)).resolve(what.file()));
            return true;
        } catch (IOException anotherDoes) {
            return false;
        }
    }

    /** Changes whenever a run is added, says something or dies; costs a look at the files of those that go on. */
    public String mark() {
        StringBuilder mark = new StringBuilder();
        for (String id : ids()) {
            Path state = folder.resolve(id).resolve(STATE);
            try {
                FileTime changed = Files.getLastModifiedTime(state);
                mark.append(id, 0, 4).append(changed.toInstant().toEpochMilli());
                if (recent(changed.toInstant())) {
                    byId(id).ifPresent(sheet ->
                            mark.append(sheet.alive()).append(sheet.state().saidMs()));
                }
            } catch (IOException gone) {
                mark.append('-');
            }
        }
        return Integer.toHexString(mark.toString().hashCode());
    }

    private boolean recent(Instant changed) {
        return clock.epochMillis() - changed.toEpochMilli()
                < Duration.ofMinutes(2).toMillis();
    }

    private List<String> ids() {
        List<String> ids = new ArrayList<>();
        if (Files.isDirectory(folder)) {
            try (DirectoryStream<Path> found = Files.newDirectoryStream(folder)) {
                found.forEach(path -> {
                    String name = String.valueOf(path.getFileName());
                    if (ID.matcher(name).matches()) {
                        ids.add(name);
                    }
                });
            } catch (IOException | DirectoryIteratorException e) {
                return List.of();
            }
        }
        ids.sort(Comparator.reverseOrder());
        return ids;
    }

    private void tidy() {
        List<Sheet> all = all();
        for (int i = MOST_RUNS; i < all.size(); i++) {
            Sheet old = all.get(i);
            if (!old.alive()) {
                Path run = folder.resolve(old.order().id());
                try {
                    for (String name : List.of(STATE, STOP, Once.AGAIN.file(), Once.TOLD.file(), SAID, ORDER)) {
                        Files.deleteIfExists(run.resolve(name));
                    }
                    Files.deleteIfExists(run);
                } catch (IOException later) {
                    return; // the next order tries again
                }
            }
        }
    }

    private static String checked(String id) {
        if (!ID.matcher(id).matches()) {
            throw new IllegalArgumentException("not the id of a run");
        }
        return id;
    }

    private static <T> @Nullable T read(Path file, Class<T> type) {
        try (InputStream in = Files.newInputStream(file)) {
            byte[] bytes = in.readNBytes(MOST_BYTES + 1);
            return bytes.length > MOST_BYTES ? null : JSON.readValue(bytes, type);
        } catch (IOException | RuntimeException damaged) {
            return null;
        }
    }

    /** The state of one run, for the run itself. */
    static final class OwnState {

        private final Path run;

        /** @param run its folder */
        OwnState(Path run) {
            this.run = run;
        }

        /** Says it. Not forced to the disk: that would cost the computer time, and what is said is soon said anew. */
        void say(LiveState state) throws IOException {
            Path half = run.resolve(STATE + ".half");
            Files.write(half, JSON.writeValueAsBytes(state));
            Files.move(half, run.resolve(STATE), StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        }

        /** Whether somebody asked it to end. */
        boolean toStop() {
            return Files.exists(run.resolve(STOP));
        }

        /** What was asked of it; null if that cannot be read. */
        @Nullable
        RunOrder order() {
            return read(run.resolve(ORDER), RunOrder.class);
        }
    }
}
