package tracksoak.bench.drive.folder;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import tracksoak.bench.drive.folder.RunLock.DriveInUseException;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.drive.system.TimedCall;

/** A run's own new folder on the drive, the only place there it writes to. */
public final class Workspace {

    private final Path folder;
    private final RunMarker marker;

    private Workspace(Path folder, RunMarker marker) {
        this.folder = folder;
        this.marker = marker;
    }

    /**
     * Makes the folder, with a small file in it that says whose it is.
     *
     * @param parent a folder on the drive
     * @param runId UUID of the run, in lower case
     * @param startedAt ISO-8601 instant in UTC
     * @param record where the run's record will lie on this computer
     * @throws DriveInUseException if a run that is alive has a folder here already
     * @throws FileAlreadyExistsException if the name is taken
     * @throws IOException if the drive refuses, or does not answer within 60 s
     */
    public static Workspace create(Path parent, String runId, String startedAt, Path record) throws IOException {
        ProcessHandle self = ProcessHandle.current();
        RunMarker marker = new RunMarker(runId, startedAt, self.pid(), RunMarker.startMs(self), record.toString());
        Path folder = parent.resolve(RunMarker.folderName(runId));
        return TimedCall.within(RealDrive.PATIENCE, "make " + folder, () -> {
            List<LeftOver> alive = LeftOver.under(parent, true);
            if (!alive.isEmpty()) {
                throw new DriveInUseException(alive.get(0).toString());
            }
            Files.createDirectory(folder);
            try {
                mark(folder, marker);
                RealDrive.sync(folder);
                RealDrive.sync(parent);
            } catch (IOException e) {
                Files.deleteIfExists(folder.resolve(RunMarker.NAME));
                Files.deleteIfExists(folder);
                throw e;
            }
            return new Workspace(folder, marker);
        });
    }

    private static void mark(Path folder, RunMarker marker) throws IOException {
        ByteBuffer text = ByteBuffer.wrap(marker.text().getBytes(StandardCharsets.UTF_8));
        try (FileChannel channel = FileChannel.open(
                folder.resolve(RunMarker.NAME),
                StandardOpenOption.CREATE_NEW,
                StandardOpenOption.WRITE,
                StandardOpenOption.DSYNC)) {
            while (text.hasRemaining()) {
                channel.write(text);
            }
        }
    }

    /** The same run's folder at another place, after the drive was plugged in anew. */
    public Workspace movedTo(Path newFolder) {
        return new Workspace(newFolder, marker);
    }

    /** The folder, to be opened with {@link RealDrive#open(Path)}. */
    public Path folder() {
        return folder;
    }

    /**
     * Deletes the folder and the run's own files in it. Not to be called while the drive hangs.
     *
     * @throws LeftOver.NotOursException if something else lies in it; nothing is deleted then
     * @throws LeftOver.InUseException if a file of it that is still open stays, and the marker with it
     * @throws IOException if the drive refuses, or does not answer within 60 s
     */
    public void remove() throws IOException {
        new LeftOver(folder, marker).deleteAll();
    }

    /**
     * Folders that earlier runs left behind here: killed, pulled out, or without power. Folders of runs that are alive are
     * not among them.
     *
     * @param parent a folder on the drive
     * @throws IOException if the drive does not answer within 60 s
     */
    public static List<LeftOver> leftOvers(Path parent) throws IOException {
        return TimedCall.within(
                RealDrive.PATIENCE, "look for left-overs in " + parent, () -> LeftOver.under(parent, false));
    }
}
