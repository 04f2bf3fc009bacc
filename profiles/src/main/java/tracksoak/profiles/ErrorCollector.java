package tracksoak.profiles;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Collects what is wrong with one profile, and knows where each key stands. Confined to one thread. */
final class ErrorCollector {
    private static final int MOST_SHOWN = 100;

    /** Where a value stands, and how it is written there. */
    record Place(String file, int line, int column, String value) {}

    private final Place whole;
    private final Map<String, Place> places = new HashMap<>();
    private final List<ProfileError> errors = new ArrayList<>();
    private final Set<String> unsound = new HashSet<>();
    private boolean incomplete;

    ErrorCollector(String file, int line) {
        this.whole = new Place(file, line, 0, "");
    }

    void place(String key, Place place) {
        places.put(key, place);
    }

    boolean isPartOnly() {
        return incomplete;
    }

    /** Call where the text could be read only in part, so that "missing" would often be untrue. */
    void partOnly() {
        incomplete = true;
    }

    void add(String key, Object value, String problem, String allowed, String remedy) {
        Place place = places.getOrDefault(key, whole);
        String shown = place.value().isEmpty() ? value.toString() : place.value();
        addAt(place.line(), place.column(), place.file(), key, shown, problem, allowed, remedy);
    }

    /** Adds a contradiction under the first of its keys that has a place of its own. */
    void add(List<String> keys, Object firstValue, String problem, String allowed, String remedy) {
        String key = keys.stream().filter(places::containsKey).findFirst().orElse(keys.get(0));
        add(key, key.equals(keys.get(0)) ? firstValue : "", problem, allowed, remedy);
    }

    /** Notes a key that is not there. */
    void missing(int line, int column, String key, Keyed kind) {
        unsound.add(topOf(key));
        if (!incomplete) {
            String remedy = "add " + kind.example();
            addAt(line, column, whole.file(), key, "", "is missing, and nothing is guessed", kind.allowed(), remedy);
        }
    }

    void addAt(int line, int column, String key, String value, String problem, String allowed, String remedy) {
        addAt(line, column, whole.file(), key, value, problem, allowed, remedy);
    }

    private void addAt(
            int line,
            int column,
            String file,
            String key,
            String value,
            String problem,
            String allowed,
            String remedy) {
        unsound.add(topOf(key));
        errors.add(new ProfileError(file, line, column, key, value, problem, allowed, remedy));
    }

    /** False for a key that is missing or wrong in itself, or a list of groups with such a key in one of them. */
    boolean isSound(String key) {
        return !unsound.contains(key);
    }

    private static String topOf(String key) {
        int bracket = key.indexOf('[');
        return bracket < 0 ? key : key.substring(0, bracket);
    }

    /** Throws everything found, in the order of the file; a hostile file cannot make the list endless. */
    void throwIfAny() {
        if (errors.isEmpty()) {
            return;
        }
        errors.sort(Comparator.comparingInt(ProfileError::line).thenComparingInt(ProfileError::column));
        if (errors.size() <= MOST_SHOWN) {
            throw new ProfileException(errors);
        }
        List<ProfileError> shown = new ArrayList<>(errors.subList(0, MOST_SHOWN));
        String more = "has " + (errors.size() - MOST_SHOWN) + " more errors";
        shown.add(new ProfileError(whole.file(), 0, 0, "", "", more, "", "mend the ones above first"));
        throw new ProfileException(shown);
    }
}
