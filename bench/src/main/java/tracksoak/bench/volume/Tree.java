package tracksoak.bench.volume;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;

/**
 * Files, folders and troubles as they are found. A file system that lies cannot make it grow beyond its bounds. Confined to
 * one thread.
 */
final class Tree {

    private static final int DEEPEST = 64;

    private static final int MOST_FILES = 200_000;

    private static final int MOST_TROUBLES = 100;
    /** Longest path kept, in characters. */
    private static final int LONGEST_PATH = 4096;

    private final List<VolumeFile> files = new ArrayList<>();
    private final List<String> troubles = new ArrayList<>();
    private final Deque<Visit> waiting = new ArrayDeque<>();
    private boolean full;

    /** A folder to be looked into. */
    record Visit(String path, List<Extent> extents, int depth) {}

    /** Looks into one. */
    @FunctionalInterface
    interface Look {
        void into(Visit folder) throws IOException;
    }

    /** Goes through all folders, the root first. */
    void walk(List<Extent> root, Look look) throws IOException {
        files.add(new VolumeFile("", true, 0, 0, root, 0));
        waiting.add(new Visit("", root, 0));
        while (!waiting.isEmpty()) {
            look.into(waiting.remove());
        }
    }

    /** Adds what lies in a folder; false if there are too many already. */
    boolean add(Visit folder, VolumeFile file) {
        if (files.size() >= MOST_FILES) {
            if (!full) {
                full = true;
                trouble("It holds more than " + MOST_FILES + " files and folders; the rest is not looked at.");
            }
            return false;
        }
        files.add(file);
        if (file.folder() && folder.depth() >= DEEPEST) {
            trouble("Folders lie inside each other more than " + DEEPEST + " deep.");
        } else if (file.folder()) {
            waiting.add(new Visit(file.path(), file.extents(), folder.depth() + 1));
        }
        return true;
    }

    void trouble(String sentence) {
        if (troubles.size() < MOST_TROUBLES) {
            troubles.add(sentence);
        }
    }

    static String path(String folder, String name) {
        String path = folder.isEmpty() ? name : folder + "/" + name;
        return path.length() > LONGEST_PATH ? path.substring(0, LONGEST_PATH) : path;
    }

    List<VolumeFile> files() {
        return files;
    }

    List<String> troubles() {
        return troubles;
    }
}
