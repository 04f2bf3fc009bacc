package tracksoak.bench.drive.system;

import java.nio.file.FileSystemException;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Failure;

/** What a record says of places on this computer: their last name, and never the path to it or the account's name. Stateless. */
public final class RecordedPlace {

    /** From its root on, as far as it goes without white space. */
    private static final Pattern PATH = Pattern.compile("(?<![\\w.:/])(?:/|[A-Za-z]:\\\\)[^\\s\"':;,()]+");

    private RecordedPlace() {}

    /** Where a file system is mounted: {@code SHOW A} for {@code /media/ada/SHOW A}; a root such as {@code E:\\} as it is. */
    public static @Nullable String of(@Nullable String mount) {
        String name = mount == null ? null : last(mount);
        return name == null || name.equals(System.getProperty("user.name")) ? null : name;
    }

    /** A folder by its own name. */
    public static String of(Path folder) {
        return last(folder.toString());
    }

    /** What the system said of a failure, with files by their own names, whatever text they stand in. */
    public static String of(Throwable problem) {
        for (Throwable cause = problem; cause != null; cause = cause.getCause()) {
            if (cause instanceof FileSystemException known && known.getFile() != null) {
                return last(known.getFile()) + ": " + Failure.words(known);
            }
        }
        return PATH.matcher(String.valueOf(problem.getMessage()))
                .replaceAll(found -> Matcher.quoteReplacement(last(found.group())));
    }

    private static String last(String path) {
        int end = path.length();
        while (end > 1 && isSeparator(path.charAt(end - 1))) {
            end--;
        }
        int start = end;
        while (start > 0 && !isSeparator(path.charAt(start - 1))) {
            start--;
        }
        String name = path.substring(start, end);
        return name.isEmpty() || name.endsWith(":") ? path : name;
    }

    private static boolean isSeparator(char c) {
        return c == '/' || c == '\\';
    }
}
