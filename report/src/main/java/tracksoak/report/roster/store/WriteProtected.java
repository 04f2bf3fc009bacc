package tracksoak.report.roster.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.Inert;

/**
 * A roster's file where nothing can be written, such as a backup on a locked stick: its log is made beside it by whoever so much as reads it, so
 * it is read as one that nobody can change ("immutable" in SQLite's description of its URI file names). Others may be able to write there all the
 * same: while their log lies beside it, it is read together with that, and what was read while the file changed is not believed. Stateless.
 */
final class WriteProtected {

    private WriteProtected() {}

    /** While a file was written so short a time ago, another change may leave its times as they are, in ms; clocks of file systems tick slowly. */
    private static final long SETTLED_MS = 2_000;

    /**
     * How a file lies there: while this stays the same, so does what a connection to it shows.
     *
     * @param text differs wherever the file does, or the way to read it
     * @param settled whether the next change is sure to give another text
     */
    record State(String text, boolean settled) {

        /** That of a database which looks after its connections itself. */
        static final State LIVE = new State("", true);

        boolean same(State other) {
            return text.equals(other.text);
        }
    }

    /** How it lies there now. */
    static State state(Path file, EpochClock clock) {
        if (!is(file)) {
            return State.LIVE;
        }
        try {
            BasicFileAttributes now = Files.readAttributes(file, BasicFileAttributes.class);
            if (!whole(file)) {
                return new State("with its log, " + now.fileKey(), true);
            }
            long writtenMs = now.lastModifiedTime().toMillis();
            return new State(
                    now.fileKey() + ", " + now.size() + ", " + now.lastModifiedTime(),
                    Math.abs(clock.epochMillis() - writtenMs) > SETTLED_MS);
        } catch (IOException gone) {
            return new State("gone", true);
        }
    }

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
