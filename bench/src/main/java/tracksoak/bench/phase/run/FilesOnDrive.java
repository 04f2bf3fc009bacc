package tracksoak.bench.phase.run;

import java.util.ArrayList;
import java.util.List;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.bench.stream.WrittenFile;

/** The files of a run on the drive, as they should be: open ones, closed ones, and those read back. One thread. */
final class FilesOnDrive {

    private final List<StreamFiles> open = new ArrayList<>();
    private final List<WrittenFile> unread = new ArrayList<>();
    private final List<WrittenFile> read = new ArrayList<>();

    /** A step is about to make files. */
    void opens(StreamFiles files) {
        open.add(files);
    }

    /** All files of a pass are closed. */
    void closed(StreamFiles files) {
        open.remove(files);
        unread.addAll(files.written());
    }

    /** Closed files not read back yet. */
    List<WrittenFile> unread() {
        return List.copyOf(unread);
    }

    /** Size of the closed files not read back yet, in bytes. */
    long unreadBytes() {
        return unread.stream().mapToLong(WrittenFile::dataBytes).sum();
    }

    /** All unread files have been read back. */
    void wasRead() {
        read.addAll(unread);
        unread.clear();
    }

    /** Closed files on the drive. */
    List<WrittenFile> all() {
        List<WrittenFile> all = new ArrayList<>(read);
        all.addAll(unread);
        return all;
    }

    /** Closed files of one pass. */
    List<WrittenFile> of(int pass) {
        return all().stream().filter(file -> file.pass() == pass).toList();
    }

    /** All closed files are gone from the drive. */
    void cleared() {
        read.clear();
        unread.clear();
    }

    /** Closes what a fault left open, whatever the drive says to it. */
    void letGo() {
        open.forEach(StreamFiles::letGo);
    }

    /** Whether anything is open. */
    boolean anyOpen() {
        return !open.isEmpty();
    }
}
