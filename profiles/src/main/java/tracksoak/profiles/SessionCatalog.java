package tracksoak.profiles;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Failure;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Shipped;

/**
 * The sessions that can be named: the shipped ones and those in a folder of the user's. A file with errors is reported by
 * {@link #problems()} and the others still load. Immutable.
 */
public final class SessionCatalog {
    /** Most profiles read from a folder; more are reported as a problem, not read. */
    public static final int MAX_USER_FILES = 500;

    private static final List<String> SHIPPED = List.of(
            "stick-mix-2",
            "trio-8",
            "club-16",
            "theatre-24",
            "band-32",
            "festival-64",
            "hires-32",
            "float-32",
            "one-file-32",
            "two-rates",
            "playback-16",
            "mixdown-32",
            "archive-32");
    private static final String SHIPPED_LABEL = "shipped";

    private final Map<String, Session> byName = new TreeMap<>();
    private final Map<String, String> origins = new TreeMap<>();
    private final List<ProfileError> problems = new ArrayList<>();

    private SessionCatalog() {
        for (String name : SHIPPED) {
            byName.put(name, readShipped(name));
            origins.put(name, SHIPPED_LABEL);
        }
    }

    /** The shipped sessions alone. */
    public static SessionCatalog shipped() {
        return new SessionCatalog();
    }

    /**
     * The shipped sessions and those of the user.
     *
     * @param userFolder folder whose {@code *.toml} files are read, not those below it; null, or a folder that is not
     *     there, for none
     */
    public static SessionCatalog of(@Nullable Path userFolder) {
        SessionCatalog catalog = new SessionCatalog();
        if (userFolder != null && Files.exists(userFolder)) {
            catalog.addFolder(userFolder);
        }
        return catalog;
    }

    /** All sessions: recordings first, then playbacks, mixdowns and archives; within each the lightest demand first. */
    public List<Session> all() {
        return byName.values().stream()
                .sorted(Comparator.comparing(Session::kind)
                        .thenComparingLong(Session::bytesPerSecond)
                        .thenComparing(Session::name))
                .toList();
    }

    /** What was wrong with files of the user's folder, in the order of the files; empty where all is well. */
    public List<ProfileError> problems() {
        return Collections.unmodifiableList(problems);
    }

    /** Where a session comes from: {@code shipped}, or the path of its file; empty for a name not known. */
    public Optional<String> origin(String name) {
        return Optional.ofNullable(origins.get(name));
    }

    /**
     * The session of a name.
     *
     * @throws ProfileException where there is none, with the name most likely meant
     */
    public Session find(String name) {
        Session session = byName.get(name);
        if (session != null) {
            return session;
        }
        String problem = "is no session known here" + Closest.hint(name, byName.keySet());
        String remedy = problems.isEmpty()
                ? "name one of them, or give a session file"
                : "name one of them, or mend the profiles of your own that have errors: " + badFiles();
        throw new ProfileException(List.of(new ProfileError(
                "option", 0, 0, "session", name, problem, String.join(", ", byName.keySet()), remedy)));
    }

    /**
     * The session of a name, as {@link #of} and {@link #find(String)} give it; a shipped one without reading any other.
     *
     * @param userFolder see {@link #of}
     * @throws ProfileException where there is none, with the name most likely meant
     */
    public static Session find(@Nullable Path userFolder, String name) {
        return SHIPPED.contains(name) ? readShipped(name) : of(userFolder).find(name);
    }

    /** The TOML text of a shipped session with its comments, a starting point for a user's own; empty for other names. */
    public static Optional<byte[]> shippedText(String name) {
        return SHIPPED.contains(name)
                ? Optional.of(Shipped.bytes("/tracksoak/sessions/" + name + ".toml"))
                : Optional.empty();
    }

    private String badFiles() {
        return String.join(
                ", ", problems.stream().map(ProfileError::file).distinct().toList());
    }

    private void addFolder(Path folder) {
        List<Path> files = new ArrayList<>();
        try (DirectoryStream<Path> found = Files.newDirectoryStream(folder, "*.toml")) {
            found.forEach(files::add);
        } catch (IOException | DirectoryIteratorException e) {
            String remedy = "give a folder that may be read, or none";
            problem(folder, "cannot be listed (" + Inert.whole(Failure.words(e)) + ")", remedy);
        }
        Collections.sort(files);
        if (files.size() > MAX_USER_FILES) {
            String problem = "holds " + files.size() + " profiles; only the first " + MAX_USER_FILES + " were read";
            problem(folder, problem, "move some elsewhere");
        }
        files.stream().limit(MAX_USER_FILES).forEach(this::addFile);
    }

    private void addFile(Path file) {
        try {
            Session session = SessionReader.read(file);
            String first = origins.get(session.name());
            if (first == null) {
                byName.put(session.name(), session);
                origins.put(session.name(), file.toString());
            } else {
                String whose = first.equals(SHIPPED_LABEL) ? "a shipped session" : "the session in " + first;
                problems.add(new ProfileError(
                        file.toString(),
                        0,
                        0,
                        "name",
                        session.name(),
                        "is the name of " + whose + " already, which stays in force",
                        "a name no other session has",
                        "give it a name of its own"));
            }
        } catch (ProfileException e) {
            problems.addAll(e.errors());
        }
    }

    private void problem(Path folder, String problem, String remedy) {
        problems.add(new ProfileError(folder.toString(), 0, 0, "", "", problem, "", remedy));
    }

    /** From the text that a test makes of its TOML file: to load a reader of TOML takes longer than a short command may. */
    private static Session readShipped(String name) {
        return SessionFields.read(Shipped.text("/tracksoak/shipped/" + name + ".txt"));
    }
}
