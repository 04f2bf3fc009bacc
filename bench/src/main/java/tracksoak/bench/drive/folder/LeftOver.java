package tracksoak.bench.drive.folder;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.drive.system.TimedCall;
import tracksoak.profiles.base.Inert;

/**
 * A folder that an earlier run left on the drive, recognised by its marker. Only the run's own files in it are ever
 * deleted; a link is never followed, and if anything else lies there all of it stays.
 */
public final class LeftOver {

    private static final Pattern FOLDER = Pattern.compile("TRACKSOAK-[0-9a-f]{8}");

    private final Path folder;
    private final RunMarker marker;

    LeftOver(Path folder, RunMarker marker) {
        this.folder = folder;
        this.marker = marker;
    }

    /** Where it lies. */
    public Path folder() {
        return folder;
    }

    /** The run that made it. */
    public String runId() {
        return marker.runId();
    }

    /** When that run began, ISO-8601 in UTC. */
    public String startedAt() {
        return marker.startedAt();
    }

    /** Where that run's record lay, on the computer it ran on; safe to print. */
    public String record() {
        return Inert.text(marker.record());
    }

    /** Room it takes, in bytes. */
    public long bytes() throws IOException {
        return TimedCall.within(RealDrive.PATIENCE, "look into " + folder, () -> new OwnFolder(folder).bytes());
    }

    /**
     * Deletes it.
     *
     * @param lock the disk's lock, held: so no other run is on the drive, whatever the marker says
     * @throws NotOursException if something else lies in it; nothing is deleted then
     * @throws InUseException if a program still has a file of it open on a file system where it then stays; the marker
     *     stays too, so that the folder is found again
     * @throws IOException if the drive refuses, or does not answer within 60 s
     */
    public void clear(RunLock lock) throws IOException {
        if (!lock.held()) {
            throw new IllegalStateException("the lock of the disk is no longer held");
        }
        deleteAll();
    }

    void deleteAll() throws IOException {
        TimedCall.within(RealDrive.PATIENCE, "clear " + folder, () -> {
            if (!read(folder).equals(Optional.of(marker))) {
                throw new NotOursException(folder, List.of("its marker is gone or another"));
            }
            new OwnFolder(folder).delete(RunMarker.NAME);
            return true;
        });
    }

    /** Run folders under {@code parent}: of runs that are alive, or of those that are not. */
    public static List<LeftOver> under(Path parent, boolean alive) throws IOException {
        List<LeftOver> found = new ArrayList<>();
        try (DirectoryStream<Path> entries = Files.newDirectoryStream(parent, "TRACKSOAK-*")) {
            for (Path entry : entries) {
                marker(entry)
                        .filter(marker -> marker.alive() == alive)
                        .ifPresent(marker -> found.add(new LeftOver(entry, marker)));
            }
        } catch (DirectoryIteratorException e) {
            throw e.getCause();
        }
        found.sort((a, b) -> a.startedAt().compareTo(b.startedAt()));
        return found;
    }

    /** The run whose folder it is, by its marker; empty if that is gone or damaged. */
    public static Optional<String> runIn(Path folder) {
        return marker(folder).map(RunMarker::runId);
    }

    private static Optional<RunMarker> marker(Path folder) {
        try {
            return read(folder);
        } catch (IOException e) {
            // a marker that cannot be read proves nothing, so its folder is left alone
            return Optional.empty();
        }
    }

    /** The marker of a run's folder; empty if it is none, or if folder or marker is a link. */
    private static Optional<RunMarker> read(Path folder) throws IOException {
        String name = String.valueOf(folder.getFileName());
        Path file = folder.resolve(RunMarker.NAME);
        if (!FOLDER.matcher(name).matches()
                || !Files.isDirectory(folder, LinkOption.NOFOLLOW_LINKS)
                || !Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
            return Optional.empty();
        }
        try (InputStream in = Files.newInputStream(file, LinkOption.NOFOLLOW_LINKS)) {
            return RunMarker.parse(new String(in.readNBytes(RunMarker.LONGEST + 1), StandardCharsets.UTF_8))
                    .filter(marker -> name.equals(RunMarker.folderName(marker.runId())));
        }
    }

    @Override
    public String toString() {
        return "run " + runId() + ", started " + startedAt();
    }

    /** Something lies in the folder that the bench did not put there. */
    public static final class NotOursException extends IOException {
        NotOursException(Path folder, List<String> others) {
            super("did not clear " + Inert.text(folder.toString()) + ", as it holds what no run wrote ("
                    + String.join(", ", others) + "): look into it and delete it by hand");
        }
    }

    /** A file of the folder was deleted, but stays as long as a program has it open. */
    public static final class InUseException extends IOException {
        InUseException(Path folder, List<String> held) {
            super("could not clear all of " + Inert.text(folder.toString())
                    + ", as a program still has a file of it open (" + String.join(", ", held)
                    + "): end that program, a run that hangs among them, and clear it again");
        }
    }
}
