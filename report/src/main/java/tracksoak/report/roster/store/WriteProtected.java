package tracksoak.report.roster.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import tracksoak.profiles.base.Inert;

/**
 * A roster's file where nothing can be written, such as a backup on a locked stick: its log is made beside it by whoever so much as reads it, so
 * it is read as one that nobody can change ("immutable" in SQLite's description of its URI file names). Stateless.
 */
final class WriteProtected {

    private WriteProtected() {}

    /** Whether nothing can be made beside a file that is there. */
    static boolean is(Path file) {
        Path folder = file.toAbsolutePath().getParent();
        return folder != null && Files.isRegularFile(file) && !Files.isWritable(folder);
    }

    /** Whether all that was written to the roster is in the file itself. */
    static boolean whole(Path file) {
        try {
            return !Files.exists(log(file)) || Files.size(log(file)) == 0;
        } catch (IOException unknown) {
            return false;
        }
    }

    /** JDBC address of a file that is taken for one that nobody can change. */
    static String address(Path file) {
        return "jdbc:sqlite:file:" + file.toUri().getRawPath() + "?immutable=1";
    }

    /** What to do about one. */
    static String todo(Path file) {
        return "copy it"
                + (whole(file)
                        ? ""
                        : ", with " + Inert.text(String.valueOf(log(file).getFileName())) + ",")
                + " to a folder that can be written";
    }

    private static Path log(Path file) {
        return file.resolveSibling(file.getFileName() + "-wal");
    }
}
