package tracksoak.bench.inspect;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.recording.DiskFile;
import tracksoak.bench.recording.FileBytes;
import tracksoak.bench.recording.VolumeBytes;
import tracksoak.bench.volume.ImageFile;
import tracksoak.bench.volume.Volume;
import tracksoak.bench.volume.VolumeFile;
import tracksoak.bench.volume.VolumeReader;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/** The place a recording lies in: a folder, a file, an image of a drive, or a drive that is not mounted. Only reads. One thread. */
final class RecordingPlace implements AutoCloseable {

    private static final Set<String> BEGINNINGS = Set.of("RIFF", "RF64", "BW64");

    private final RecordingFolder folder = new RecordingFolder();
    private @Nullable ImageFile image;
    private @Nullable Volume volume;
    private boolean mounted;
    private String volumeUnknown = "";
    private String prefix = "";

    private RecordingPlace() {}

    /**
     * Opens it.
     *
     * @throws Problem if there is nothing there, nothing that could be a recording, or too much
     */
    static RecordingPlace open(Rooms rooms, Path path) {
        if (path.toString().isEmpty() || !Files.exists(path)) {
            throw Problem.askedWrong(
                    "there is no folder or file " + Inert.quoted(path),
                    "name the folder the recording lies in, a file of it, or an image of its drive");
        }
        RecordingPlace place = new RecordingPlace();
        try {
            if (Files.isDirectory(path)) {
                place.folder(rooms, path.toRealPath());
            } else {
                mustNotBeInUse(rooms, path.toRealPath());
                place.file(path);
            }
        } catch (IOException refused) {
            place.close();
            throw Problem.cannot(
                    Inert.quoted(path) + " cannot be read (" + Problem.reason(refused) + ")",
                    "see whether you may read it, and whether the drive is still there");
        }
        if (place.folder.files().isEmpty() && place.folder.broken().isEmpty()) {
            place.close();
            throw Problem.askedWrong(
                    "no recording lies in " + Inert.quoted(path) + ": no file ends in .wav, .bwf, .rf64 or .bw64",
                    "name the folder the recording lies in");
        }
        return place;
    }

    /** What lies there. */
    Recordings recordings() {
        return new Recordings(folder.files(), folder.broken(), folder.others(), volume, mounted, volumeUnknown, prefix);
    }

    private void folder(Rooms rooms, Path path) throws IOException {
        folder.walk(path);
        FoundDrive drive;
        try {
            drive = rooms.driveAt(path);
        } catch (IOException unknown) {
            volumeUnknown = "the drive it lies on is not known";
            return;
        }
        String node = drive.facts().node();
        String mount = drive.facts().mount();
        String type = String.valueOf(drive.facts().fileSystem()).toLowerCase(Locale.ROOT);
        if (!type.contains("fat") || node == null || mount == null) {
            volumeUnknown = "only the tables of FAT32 and exFAT are read, and this is another file system";
            return;
        }
        Path top = Path.of(mount).toRealPath();
        prefix = path.startsWith(top) && !path.equals(top)
                ? top.relativize(path).toString().replace('\\', '/') + "/"
                : "";
        mounted = !drive.readOnly();
        try (ImageFile device = ImageFile.open(Path.of("/dev").resolve(node))) {
            Volume read = VolumeReader.read(device);
            // what is written to meanwhile may change its tables under the reading
            volume = mounted && !read.shared().isEmpty() ? read.agreeing(VolumeReader.read(device)) : read;
        } catch (IOException refused) {
            volumeUnknown = "the device " + Inert.text(node) + " may not be read by this user";
        } catch (Problem damaged) {
            volumeUnknown = damaged.told();
        }
    }

    /** The tables of a device that is mounted for writing say that it is in use, and what was written last may not be there yet. */
    private static void mustNotBeInUse(Rooms rooms, Path path) {
        if (Files.isRegularFile(path)) {
            return;
        }
        String name = String.valueOf(path.getFileName());
        for (FoundDrive drive : rooms.drives()) {
            String node = drive.facts().node();
            String mount = drive.facts().mount();
            if (node != null && mount != null && !drive.readOnly() && isOf(name, node)) {
                throw Problem.askedWrong(
                        Inert.quoted(path) + " is mounted, so what it holds may change while it is read",
                        "name the folder it is mounted on, " + Inert.quoted(mount) + ", or unmount it first");
            }
        }
    }

    /** Whether a device is that one, or a partition of it. */
    private static boolean isOf(String disk, String node) {
        return node.equals(disk)
                || (node.startsWith(disk) && node.substring(disk.length()).matches("p?[0-9]+"));
    }

    private void file(Path path) throws IOException {
        if (isWave(path)) {
            folder.open(String.valueOf(path.getFileName()), () -> DiskFile.open(path));
            volumeUnknown = "a single file shows nothing of the file system it lies in";
            return;
        }
        ImageFile device = ImageFile.open(path);
        image = device;
        Volume read;
        try {
            read = VolumeReader.read(device);
        } catch (Problem none) {
            close();
            throw Problem.askedWrong(
                    Inert.quoted(path) + " is no WAVE file, and no drive or image with FAT32 or exFAT: " + none.told(),
                    "name the folder the recording lies in, a file of it, or an image of its drive");
        }
        volume = read;
        for (VolumeFile file : read.files()) {
            if (!file.folder()) {
                folder.take(file.path(), () -> new VolumeBytes(device, file));
            }
        }
    }

    private static boolean isWave(Path path) throws IOException {
        if (!Files.isRegularFile(path)) {
            return false;
        }
        try (FileBytes bytes = DiskFile.open(path)) {
            ByteBuffer head = ByteBuffer.allocate(4);
            int count = bytes.read(head, 0);
            String name = String.valueOf(path.getFileName()).toLowerCase(Locale.ROOT);
            return BEGINNINGS.contains(new String(head.array(), 0, Math.max(0, count), StandardCharsets.ISO_8859_1))
                    || name.endsWith(".wav");
        }
    }

    @Override
    public void close() {
        ImageFile open = image;
        if (open != null) {
            try {
                open.close();
            } catch (IOException e) {
                // it was only read
                image = null;
            }
        }
    }
}
