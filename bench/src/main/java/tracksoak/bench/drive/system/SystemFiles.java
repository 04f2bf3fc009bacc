package tracksoak.bench.drive.system;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What Linux tells of itself in files under {@code /proc}, {@code /sys} and {@code /dev}. Nothing here touches a drive.
 * The parsers work on this, so that tests hand them captured texts.
 */
public interface SystemFiles {

    /** Longest text that is read, in bytes. */
    int MOST_BYTES = 4 << 20;

    /** Whole text of the file, null if it is not there or cannot be read. */
    @Nullable
    String text(String path);

    /** Absolute path with all links resolved, null if there is nothing. */
    @Nullable
    String real(String path);

    /** Names in the folder, sorted; empty if it is not there. */
    List<String> names(String path);

    /** Text without white space at its ends, null if absent or empty. */
    default @Nullable String word(String path) {
        String text = text(path);
        return text == null || text.isBlank() ? null : text.strip();
    }

    /** Whole number in the file, null if absent or not a number. */
    default @Nullable Long number(String path) {
        String word = word(path);
        try {
            return word == null ? null : Long.valueOf(word);
        } catch (NumberFormatException e) {
            return null;
        }
    }

    /** What the kernel has said since it was started, null where this user may not know. */
    default @Nullable String kernelLog() {
        return null;
    }

    /** The files of this machine. */
    SystemFiles HERE = new SystemFiles() {
        @Override
        public @Nullable String kernelLog() {
            return KernelLog.text();
        }

        @Override
        public @Nullable String text(String path) {
            try (InputStream in = Files.newInputStream(Path.of(path))) {
                return new String(in.readNBytes(MOST_BYTES), StandardCharsets.UTF_8);
            } catch (IOException | InvalidPathException e) {
                return null;
            }
        }

        @Override
        public @Nullable String real(String path) {
            try {
                return Path.of(path).toRealPath().toString();
            } catch (IOException | InvalidPathException e) {
                return null;
            }
        }

        @Override
        public List<String> names(String path) {
            List<String> names = new ArrayList<>();
            try (DirectoryStream<Path> entries = Files.newDirectoryStream(Path.of(path))) {
                entries.forEach(entry -> names.add(String.valueOf(entry.getFileName())));
            } catch (IOException | InvalidPathException | DirectoryIteratorException e) {
                return List.of();
            }
            Collections.sort(names);
            return names;
        }
    };
}
