package tracksoak.bench.inspect;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.recording.DiskFile;
import tracksoak.bench.recording.FileBytes;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.UnreadableWave;
import tracksoak.bench.recording.WaveHeaderReader;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/** Finds the recordings under a folder; follows no links, and gives up where there are too many. One thread. */
final class RecordingFolder {

    /** Most recordings looked at in one go. */
    static final int MOST_FILES = 8192;

    private static final int MOST_ENTRIES = 500_000;
    private static final int DEEPEST = 32;
    /** What was thrown away, and what systems keep for themselves. */
    private static final Pattern HIDDEN =
            Pattern.compile("(^|/)(\\.|(\\$RECYCLE\\.BIN|System Volume Information|lost\\+found)/)");

    private static final Set<String> ENDINGS = Set.of("wav", "wave", "bwf", "rf64", "bw64");

    private final List<RecordedFile> files = new ArrayList<>();
    private final List<Recordings.Broken> broken = new ArrayList<>();
    private long others;
    private long entries;

    List<RecordedFile> files() {
        return files;
    }

    List<Recordings.Broken> broken() {
        return broken;
    }

    long others() {
        return others;
    }

    /** Looks through a folder of a mounted file system, named without links. */
    void walk(Path folder) throws IOException {
        Files.walkFileTree(folder, Set.of(), DEEPEST, new SimpleFileVisitor<>() {
            @Override
            public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
                count();
                String path = folder.relativize(file).toString().replace('\\', '/');
                if (attributes.isRegularFile()) {
                    take(path, () -> DiskFile.open(file));
                } else if (attributes.isDirectory()) {
                    tooDeep(path);
                } else {
                    pass(folder, file, path, attributes.isSymbolicLink());
                }
                return FileVisitResult.CONTINUE;
            }

            @Override
            public FileVisitResult visitFileFailed(Path file, IOException refused) throws IOException {
                if (file.equals(folder) && refused instanceof AccessDeniedException) {
                    throw refused;
                }
                refused(folder.relativize(file).toString().replace('\\', '/'), refused);
                return FileVisitResult.CONTINUE;
            }

            @Override
            public FileVisitResult postVisitDirectory(Path one, @Nullable IOException refused) {
                if (refused != null) {
                    refused(folder.relativize(one).toString().replace('\\', '/'), refused);
                }
                return FileVisitResult.CONTINUE;
            }
        });
    }

    private void tooDeep(String path) {
        if (visible(path)) {
            mustBeFew();
            broken.add(Recordings.Broken.notLookedAt(
                    path, "folders lie inside each other more than " + DEEPEST + " deep: inspect this one by itself"));
        }
    }

    private void count() {
        if (++entries > MOST_ENTRIES) {
            throw Problem.askedWrong(
                    "there are more than " + Count.number(MOST_ENTRIES) + " files, and one recording has not so many",
                    "name the folder in which the recording lies");
        }
    }

    /** Takes a file, if it is a recording by its name. */
    void take(String path, RecordedFile.Source source) {
        if (!recording(path)) {
            others++;
            return;
        }
        mustBeFew();
        open(path, source);
    }

    private static boolean recording(String path) {
        String name = path.substring(path.lastIndexOf('/') + 1);
        int dot = name.lastIndexOf('.');
        return dot >= 0
                && !HIDDEN.matcher(path).find()
                && ENDINGS.contains(name.substring(dot + 1).toLowerCase(Locale.ROOT));
    }

    private void mustBeFew() {
        if (files.size() + broken.size() >= MOST_FILES) {
            throw Problem.askedWrong(
                    "there are more than " + Count.number(MOST_FILES)
                            + " recordings, too many to hold against each other at once",
                    "name the folder of one take or one show");
        }
    }

    /** Passes by what is neither file nor folder: a track may lie behind it. */
    private void pass(Path folder, Path file, String path, boolean link) {
        boolean toFolder = Files.isDirectory(file);
        if (!recording(path) && !(toFolder && visible(path))) {
            others++;
            return;
        }
        mustBeFew();
        if (!link) {
            broken.add(Recordings.Broken.notLookedAt(path, "neither a file nor a folder"));
        } else if (leadsInto(folder, file, toFolder)) {
            broken.add(Recordings.Broken.besides(path, "a link: what it leads to lies here too"));
        } else {
            broken.add(Recordings.Broken.notLookedAt(path, "a link: inspect what it leads to as well"));
        }
    }

    /** Whether a link leads to what is looked at anyway. */
    private static boolean leadsInto(Path folder, Path link, boolean toFolder) {
        try {
            Path target = link.toRealPath();
            if (!target.startsWith(folder)) {
                return false;
            }
            String path = folder.relativize(target).toString().replace('\\', '/');
            return toFolder ? visible(path) : recording(path);
        } catch (IOException nowhere) {
            return false;
        }
    }

    private static boolean visible(String folder) {
        return !HIDDEN.matcher(folder + "/").find();
    }

    /** Takes a file whatever its name is. */
    void open(String path, RecordedFile.Source source) {
        try (FileBytes bytes = source.open()) {
            files.add(new RecordedFile(path, WaveHeaderReader.read(bytes), source));
        } catch (UnreadableWave none) {
            broken.add(Recordings.Broken.header(path, none));
        } catch (IOException refused) {
            refused(path, refused);
        }
    }

    /** Takes what could not be opened: which is the drive's fault, or only not for this user. */
    void refused(String path, IOException refused) {
        if (!(refused instanceof AccessDeniedException)) {
            broken.add(Recordings.Broken.refused(path, Inert.text(Problem.reason(refused))));
        } else if (visible(path)) {
            broken.add(Recordings.Broken.notLookedAt(path, "not allowed for this user: run it as a user who may"));
        }
    }
}
