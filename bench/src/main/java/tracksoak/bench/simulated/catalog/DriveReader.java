package tracksoak.bench.simulated.catalog;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.simulated.Behaviour;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.figures.OutOfRange;
import tracksoak.profiles.Closest;
import tracksoak.profiles.Keyed;
import tracksoak.profiles.KeyedTable;
import tracksoak.profiles.ProfileException;
import tracksoak.profiles.TomlFile;
import tracksoak.profiles.base.Inert;

/**
 * Reads drive files: a simulated drive composed of behaviours by name and value. A file comes from outside and may hold
 * anything: whatever it holds, the answer is a checked {@link DriveModel} or a {@link ProfileException} with everything that
 * is wrong. Stateless, so safe in any thread.
 */
public final class DriveReader {

    private static final Keyed NAME =
            Keyed.of("name", "small letters a-z, digits and single hyphens, 1 to 48 characters", "name = \"my-stick\"");
    private static final Keyed ABOUT = Keyed.of("about", "one line of text", "about = \"a stick like ours\"");
    private static final Keyed SEED = Keyed.of("seed", "a whole number", "seed = 1");
    private static final Keyed SIZE = Keyed.of("size", "a size with its unit, up to 4 TiB", "size = \"64 GB\"");
    private static final Keyed USED = Keyed.of("used", "a size with its unit, up to the size", "used = \"32 GB\"");
    private static final Keyed FILE_SYSTEM =
            Keyed.of("file_system", "\"exfat\", \"fat32\", \"ext4\"", "file_system = \"exfat\"");
    private static final Keyed CLUSTER =
            Keyed.of("cluster", "4 KiB to 32 MiB, a multiple of 4 KiB", "cluster = \"128 KiB\"");
    private static final Keyed LINK = Keyed.of("link_mbps", "1 to 100000 Mbit/s", "link_mbps = 5000");
    private static final Keyed SPINNING = Keyed.of("spinning", "true, false", "spinning = false");
    private static final Keyed BEHAVIOUR =
            Keyed.of("behaviour", "1 to 32 tables", "[[behaviour]] with kind and its keys below it");
    private static final List<Keyed> TOP =
            List.of(NAME, ABOUT, SEED, SIZE, USED, FILE_SYSTEM, CLUSTER, LINK, SPINNING, BEHAVIOUR);
    private static final SortedMap<String, Class<? extends Behaviour>> BEHAVIOURS = BehaviourKinds.all();
    private static final Keyed KIND =
            Keyed.of("kind", String.join(", ", BEHAVIOURS.keySet()), "kind = \"constant-rate\"");
    private static final TomlFile.Kind FILE = new TomlFile.Kind("drive file", "documented drive file");

    private final KeyedTable top;

    private DriveReader(KeyedTable top) {
        this.top = top;
    }

    /**
     * Reads a drive file.
     *
     * @throws ProfileException with everything that is wrong, also where the file cannot be read
     */
    public static DriveModel read(Path file) {
        return checked(TomlFile.read(file, FILE));
    }

    /**
     * Reads a drive file from its text.
     *
     * @param label what to call the file in messages
     * @throws ProfileException with everything that is wrong
     */
    public static DriveModel read(String text, String label) {
        return checked(TomlFile.read(text, label, FILE));
    }

    private static DriveModel checked(TomlFile file) {
        DriveModel model = new DriveReader(file.top()).model();
        file.throwIfAny();
        if (model == null) {
            throw new IllegalStateException("a drive that is wrong was read without an error");
        }
        return model;
    }

    private @Nullable DriveModel model() {
        top.refuseAllBut(TOP);
        String name = top.text(NAME);
        String about = top.has(ABOUT) ? top.text(ABOUT) : "";
        Long seed = top.whole(SEED);
        Long size = top.size(SIZE);
        Long used = top.has(USED) ? top.size(USED) : Long.valueOf(0);
        String fileSystem = top.has(FILE_SYSTEM) ? top.text(FILE_SYSTEM) : DriveModel.FILE_SYSTEMS.get(0);
        Long cluster = top.has(CLUSTER) ? top.size(CLUSTER) : Long.valueOf(128L << 10);
        Long link = top.has(LINK) ? top.whole(LINK) : Long.valueOf(5000);
        Boolean spinning = top.has(SPINNING) ? top.flag(SPINNING) : Boolean.FALSE;
        List<Behaviour> behaviours = behaviours();
        int unit = fitting(or(cluster, 128L << 10));
        try {
            // what could not be read is noted already; the rest is checked beside what fits there
            return new DriveModel(
                    or(name, "unread"),
                    Inert.text(or(about, "")),
                    or(seed, 0L),
                    or(size, (long) unit),
                    size == null ? 0 : or(used, 0L),
                    or(fileSystem, DriveModel.FILE_SYSTEMS.get(0)),
                    unit,
                    fitting(or(link, 1L)),
                    or(spinning, false),
                    behaviours);
        } catch (OutOfRange wrong) {
            note(wrong, top, TOP);
            return null;
        }
    }

    private static <T> T or(@Nullable T read, T fitting) {
        return read == null ? fitting : read;
    }

    private List<Behaviour> behaviours() {
        List<KeyedTable> tables = top.tables(BEHAVIOUR);
        if (tables.isEmpty() && !top.has(BEHAVIOUR)) {
            top.missing(BEHAVIOUR);
        } else if (tables.isEmpty() || tables.size() > DriveModel.MOST_BEHAVIOURS) {
            top.wrong(
                    BEHAVIOUR,
                    tables.size() + " tables",
                    tables.isEmpty() ? "says nothing of how the drive behaves" : "are too many for one drive",
                    BEHAVIOUR.allowed(),
                    tables.isEmpty() ? "add " + BEHAVIOUR.example() : "take some out");
            return List.of();
        }
        List<Behaviour> behaviours = new ArrayList<>();
        for (KeyedTable table : tables) {
            Behaviour behaviour = behaviour(table);
            if (behaviour != null) {
                behaviours.add(behaviour);
            }
        }
        return List.copyOf(behaviours);
    }

    private static @Nullable Behaviour behaviour(KeyedTable table) {
        String kind = table.text(KIND);
        if (kind == null) {
            return null;
        }
        Class<? extends Behaviour> type = BEHAVIOURS.get(kind);
        if (type == null) {
            Optional<String> meant = Closest.to(kind, BEHAVIOURS.keySet());
            String problem = "is no behaviour known here" + Closest.hint(kind, BEHAVIOURS.keySet());
            table.wrong(
                    KIND,
                    kind,
                    problem,
                    KIND.allowed(),
                    meant.map(word -> "write " + word).orElse("write one of them"));
            return null;
        }
        List<BehaviourKey> keys =
                Arrays.stream(type.getRecordComponents()).map(BehaviourKey::of).toList();
        List<Keyed> known = new ArrayList<>(List.of(KIND));
        known.addAll(keys);
        table.refuseAllBut(known);
        List<Object> figures = new ArrayList<>();
        for (BehaviourKey key : keys) {
            Object figure = key.read(table);
            if (figure != null) {
                figures.add(figure);
            }
        }
        return figures.size() == keys.size() ? compose(type, figures.toArray(), table, keys) : null;
    }

    private static @Nullable Behaviour compose(
            Class<? extends Behaviour> type, Object[] figures, KeyedTable table, List<BehaviourKey> keys) {
        Class<?>[] types = Arrays.stream(type.getRecordComponents())
                .map(RecordComponent::getType)
                .toArray(Class<?>[]::new);
        try {
            return type.getConstructor(types).newInstance(figures);
        } catch (InvocationTargetException e) {
            if (e.getCause() instanceof OutOfRange wrong) {
                note(wrong, table, keys);
                return null;
            }
            throw new IllegalStateException("the behaviour " + type.getSimpleName() + " cannot be made", e);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("the behaviour " + type.getSimpleName() + " cannot be made", e);
        }
    }

    private static void note(OutOfRange wrong, KeyedTable table, List<? extends Keyed> keys) {
        for (OutOfRange.Figure figure : wrong.figures()) {
            Keyed key = keys.stream()
                    .filter(each -> each.toml().equals(figure.key()))
                    .findFirst()
                    .orElseThrow(() -> new IllegalStateException("no key is named " + figure.key()));
            table.wrong(key, figure.value(), "is not allowed here", figure.allowed(), "write one that is");
        }
    }

    /** Too large for the program is too large for every drive, so the nearest figure is refused as this one would be. */
    private static int fitting(long value) {
        return (int) Math.max(Integer.MIN_VALUE, Math.min(Integer.MAX_VALUE, value));
    }
}
