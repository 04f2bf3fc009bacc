package tracksoak.bench.simulated.catalog;

import java.io.IOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.CodeSource;
import java.util.List;
import java.util.Locale;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import tracksoak.bench.simulated.Behaviour;

/**
 * The behaviours there are, each by its word: {@code fast-cache} for {@link tracksoak.bench.simulated.FastCache}. They are
 * found by looking into the room where they lie, so a new one is there as soon as its class is.
 */
final class BehaviourKinds {

    private static final String ROOM = Behaviour.class.getPackageName();
    private static final String ENDING = ".class";

    private BehaviourKinds() {}

    /** All of them, by word. */
    static SortedMap<String, Class<? extends Behaviour>> all() {
        SortedMap<String, Class<? extends Behaviour>> kinds = new TreeMap<>();
        for (String name : classesOfTheRoom()) {
            Class<?> type = load(ROOM + "." + name);
            if (type.isRecord() && Behaviour.class.isAssignableFrom(type)) {
                kinds.put(word(name), type.asSubclass(Behaviour.class));
            }
        }
        return kinds;
    }

    /** {@code FastCache} as {@code fast-cache}. */
    static String word(String className) {
        return className.replaceAll("(?<=.)(?=[A-Z])", "-").toLowerCase(Locale.ROOT);
    }

    private static Class<?> load(String name) {
        try {
            return Class.forName(name, false, Behaviour.class.getClassLoader());
        } catch (ClassNotFoundException e) {
            throw new IllegalStateException(
                    "the class " + name + " is in the program's folder but cannot be loaded", e);
        }
    }

    private static List<String> classesOfTheRoom() {
        CodeSource source = Behaviour.class.getProtectionDomain().getCodeSource();
        if (source == null) {
            throw new IllegalStateException("it is not known where the program lies");
        }
        try {
            URI home = source.getLocation().toURI();
            Path at = Path.of(home);
            String room = "/" + ROOM.replace('.', '/');
            if (Files.isDirectory(at)) {
                return classes(at.resolve(room.substring(1)));
            }
            try (FileSystem jar = FileSystems.newFileSystem(at)) {
                return classes(jar.getPath(room));
            }
        } catch (IOException | URISyntaxException e) {
            throw new IllegalStateException("the behaviours of simulated drives cannot be listed", e);
        }
    }

    private static List<String> classes(Path room) throws IOException {
        try (Stream<Path> files = Files.list(room)) {
            return files.map(file -> String.valueOf(file.getFileName()))
                    .filter(name -> name.endsWith(ENDING) && !name.contains("$") && !name.contains("-"))
                    .map(name -> name.substring(0, name.length() - ENDING.length()))
                    .toList();
        }
    }
}
