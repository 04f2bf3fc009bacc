package tracksoak.bench.volume;

import java.util.ArrayList;
import java.util.List;

/**
 * Files, folders and troubles as they are found. A file system that lies cannot make it grow beyond its bounds. Confined to
 * one thread.
 */
final class Tree {

    /** Deepest folder. */
    static final int DEEPEST = 64;

    /** Most files and folders. */
    static final int MOST_FILES = 200_000;

    private static final int MOST_TROUBLES = 100;
    /** Longest path kept, in characters. */
    private static final int LONGEST_PATH = 4096;

    private final List<VolumeFile> files = new ArrayList<>();
    private final List<String> troubles = new ArrayList<>();
    private boolean full;

    /** Adds one; false if there are too many already. */
    boolean add(VolumeFile file) {
        if (files.size() >= MOST_FILES) {
            if (!full) {
                full = true;
                trouble("It holds more than " + MOST_FILES + " files and folders; the rest is not looked at.");
            }
            return false;
        }
        files.add(file);
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
