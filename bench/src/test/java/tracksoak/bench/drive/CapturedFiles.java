package tracksoak.bench.drive;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.system.SystemFiles;

/** A system's files as captured text. Links are resolved as the kernel would. */
public final class CapturedFiles implements SystemFiles {

    private final Map<String, String> texts = new HashMap<>();
    private final Map<String, String> links = new HashMap<>();
    private final TreeSet<String> paths = new TreeSet<>();
    private @Nullable String kernelLog;

    /**
     * Reads a capture: a line {@code path = text} per file (escaped as in Java source), {@code path -> target} per link,
     * {@code path/} per folder; {@code #} begins a comment line.
     */
    public static CapturedFiles parse(String capture) {
        CapturedFiles files = new CapturedFiles();
        for (String line : capture.split("\n", -1)) {
            int text = line.indexOf(" = ");
            int link = line.indexOf(" -> ");
            if (line.isBlank() || line.startsWith("#")) {
                continue;
            }
            if (link > 0 && (text < 0 || link < text)) {
                files.link(line.substring(0, link), line.substring(link + 4));
            } else if (text > 0) {
                files.text(line.substring(0, text), line.substring(text + 3).translateEscapes());
            } else {
                files.folder(line.strip());
            }
        }
        return files;
    }

    /** The capture of that name among the test resources. */
    public static CapturedFiles named(String name) throws IOException {
        try (InputStream in = Objects.requireNonNull(CapturedFiles.class.getResourceAsStream(name), name)) {
            return parse(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        }
    }

    public CapturedFiles text(String path, String text) {
        texts.put(path, text);
        paths.add(path);
        return this;
    }

    public CapturedFiles link(String path, String target) {
        links.put(path, target);
        paths.add(path);
        return this;
    }

    /** What the kernel has said; until then this user may not know. */
    public CapturedFiles kernelLog(String log) {
        kernelLog = log;
        return this;
    }

    @Override
    public @Nullable String kernelLog() {
        return kernelLog;
    }

    CapturedFiles folder(String path) {
        paths.add(path.endsWith("/") ? path.substring(0, path.length() - 1) : path);
        return this;
    }

    /** Paths of all files with a text, sorted. */
    public List<String> files() {
        return texts.keySet().stream().sorted().toList();
    }

    /** Takes away everything at and under a path, as if the device had left. */
    public CapturedFiles without(String path) {
        paths.removeIf(each -> each.equals(path) || each.startsWith(path + "/"));
        texts.keySet().removeIf(each -> !paths.contains(each));
        links.keySet().removeIf(each -> !paths.contains(each));
        return this;
    }

    @Override
    public @Nullable String text(String path) {
        String real = real(path);
        return real == null ? null : texts.get(real);
    }

    @Override
    public @Nullable String real(String path) {
        List<String> done = new ArrayList<>();
        List<String> todo = new ArrayList<>(List.of(path.split("/", -1)));
        int hops = 0;
        while (!todo.isEmpty()) {
            String part = todo.remove(0);
            if (part.isEmpty() || part.equals(".")) {
                continue;
            }
            if (part.equals("..")) {
                if (!done.isEmpty()) {
                    done.remove(done.size() - 1);
                }
                continue;
            }
            done.add(part);
            String target = links.get("/" + String.join("/", done));
            if (target != null) {
                if (++hops > 40) {
                    return null;
                }
                done.remove(done.size() - 1);
                if (target.startsWith("/")) {
                    done.clear();
                }
                todo.addAll(0, List.of(target.split("/", -1)));
            }
        }
        String real = "/" + String.join("/", done);
        return there(real) ? real : null;
    }

    @Override
    public List<String> names(String path) {
        String real = real(path);
        if (real == null) {
            return List.of();
        }
        String prefix = real.equals("/") ? "/" : real + "/";
        TreeSet<String> names = new TreeSet<>();
        for (String each : paths.tailSet(prefix)) {
            if (!each.startsWith(prefix)) {
                break;
            }
            String rest = each.substring(prefix.length());
            names.add(rest.contains("/") ? rest.substring(0, rest.indexOf('/')) : rest);
        }
        return List.copyOf(names);
    }

    private boolean there(String real) {
        if (real.equals("/") || paths.contains(real)) {
            return true;
        }
        String next = paths.ceiling(real + "/");
        return next != null && next.startsWith(real + "/");
    }
}
