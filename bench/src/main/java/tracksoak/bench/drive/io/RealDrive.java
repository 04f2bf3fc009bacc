package tracksoak.bench.drive.io;

import java.io.File;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.system.Mount;
import tracksoak.bench.drive.system.MountTable;
import tracksoak.bench.drive.system.SystemFiles;
import tracksoak.bench.drive.system.TimedCall;
import tracksoak.report.record.facts.IoMode;

/**
 * A drive of this machine, reached through one folder that belongs to the run. Files are new, written past the host's
 * memory and never opened twice for writing. Names that begin with a dot are the system's and the run's own: they are
 * neither listed nor taken.
 */
public final class RealDrive implements Drive {

    /** A sleeping disk takes up to 31 s to wake (manufacturers' manuals). */
    public static final Duration PATIENCE = Duration.ofSeconds(60);

    private static final Pattern NAME = Pattern.compile("[A-Za-z0-9_-][A-Za-z0-9._-]{0,119}");
    private static final String EXFAT = "exfat";
    private static final long TRIAL_BYTES = 8 << 20;
    private static final Path DROP_CACHES = Path.of("/proc/sys/vm/drop_caches");

    private final Path folder;
    private final Writing writing;
    private final DeviceWatch watch;
    private final @Nullable Mount mount;
    private final Spreading spreading;

    private RealDrive(Path folder, Writing writing, DeviceWatch watch, @Nullable Mount mount, Spreading spreading) {
        this.folder = folder;
        this.writing = writing;
        this.watch = watch;
        this.mount = mount;
        this.spreading = spreading;
    }

    /**
     * Opens the drive that {@code folder} lies on and finds out, by a trial file, how it is written.
     *
     * @param folder exists and belongs to the run alone
     * @throws IOException if the folder cannot be written, or the drive does not answer within 60 s
     */
    public static RealDrive open(Path folder) throws IOException {
        return open(folder, SystemFiles.HERE);
    }

    static RealDrive open(Path folder, SystemFiles files) throws IOException {
        return open(folder, files, Libc.HERE);
    }

    static RealDrive open(Path folder, SystemFiles files, boolean nativeCalls) throws IOException {
        return TimedCall.within(PATIENCE, "write a trial file in " + folder, () -> {
            Path real = folder.toRealPath();
            Optional<Mount> mount = MountTable.of(files).of(real.toString());
            Writing writing = Writing.tried(real, mount, nativeCalls);
            DeviceWatch watch = new DeviceWatch(files, mount);
            String type = mount.map(Mount::type).orElse("");
            return new RealDrive(real, writing, watch, mount.orElse(null), spreading(type, real, writing, watch));
        });
    }

    /**
     * Opens a folder that was just mounted anew, to read what survived in it: nothing is written, not even a trial file,
     * and nothing of it is in the host's memory yet.
     *
     * @throws IOException if the drive does not answer within 60 s
     */
    public static RealDrive openToRead(Path folder) throws IOException {
        return TimedCall.within(PATIENCE, "look into " + folder, () -> {
            Path real = folder.toRealPath();
            Optional<Mount> mount = MountTable.of(SystemFiles.HERE).of(real.toString());
            return new RealDrive(
                    real, Writing.none(), new DeviceWatch(SystemFiles.HERE, mount), mount.orElse(null), Spreading.NONE);
        });
    }

    /** The same drive through another folder of it, to be read. Nothing is written to find out how. */
    public RealDrive at(Path other) throws IOException {
        return TimedCall.within(
                PATIENCE,
                "look at " + other,
                () -> new RealDrive(other.toRealPath(), writing, watch, mount, spreading));
    }

    @Override
    public DriveFile create(String name) throws IOException {
        return writing.create(path(name));
    }

    @Override
    public DriveFile open(String name) throws IOException {
        return writing.open(path(name));
    }

    @Override
    public List<String> list() throws IOException {
        List<String> names = new ArrayList<>();
        try (DirectoryStream<Path> entries = Files.newDirectoryStream(folder)) {
            for (Path entry : entries) {
                String name = String.valueOf(entry.getFileName());
                if (!name.startsWith(".") && Files.isRegularFile(entry, LinkOption.NOFOLLOW_LINKS)) {
                    names.add(name);
                }
            }
        } catch (DirectoryIteratorException e) {
            throw e.getCause();
        }
        Collections.sort(names);
        return names;
    }

    @Override
    public void delete(String name) throws IOException {
        Files.delete(path(name));
    }

    @Override
    public void syncFolder() throws IOException {
        sync(folder);
    }

    /** Makes the entries of a folder durable; nothing where the system opens no folders. */
    public static void sync(Path folder) throws IOException {
        FileChannel channel;
        try {
            channel = FileChannel.open(folder, Set.of(StandardOpenOption.READ));
        } catch (IOException e) {
            if (Files.isReadable(folder) && File.separatorChar == '/') {
                throw e;
            }
            return;
        }
        try (channel) {
            channel.force(true);
        }
    }

    @Override
    public long usableBytes() throws IOException {
        return Files.getFileStore(folder).getUsableSpace();
    }

    @Override
    public int alignmentBytes() {
        return Writing.UNIT;
    }

    @Override
    public int roomUnitBytes() {
        return writing.cluster();
    }

    @Override
    public Spreading spreading() {
        return spreadingReason().isEmpty() ? spreading : Spreading.NONE;
    }

    @Override
    public String spreadingReason() {
        if (mount == null || mount.point().equals("/")) {
            return "the system runs from this drive, and must not be without room for a moment";
        }
        if (!writing.extendsFiles()) {
            return "files cannot be given room in advance here, so all of it would have to be written";
        }
        if (spreading != Spreading.NONE) {
            return "";
        }
        return "on " + (mount.type().equals(EXFAT) ? "exFAT, as this computer's kernel has it," : mount.type())
                + " all of it would have to be written";
    }

    private static Spreading spreading(String type, Path folder, Writing writing, DeviceWatch watch) {
        return switch (type) {
            case "ext4", "xfs", "btrfs", "f2fs" -> Spreading.SPARSE;
            case "vfat", "msdos" -> Spreading.IN_TURN;
            case EXFAT -> lengthens(folder, writing, watch) ? Spreading.IN_TURN_BY_LENGTH : Spreading.NONE;
            default -> Spreading.NONE;
        };
    }

    /** Whether a file is made longer without being written, by the device's own counters: Linux's exFAT does since 6.8. */
    private static boolean lengthens(Path folder, Writing writing, DeviceWatch watch) {
        Path trial = folder.resolve("trial-length.soak");
        Optional<Counters> before = watch.counters();
        try {
            try (DriveFile file = writing.create(trial)) {
                if (before.isEmpty() || !file.lengthen(TRIAL_BYTES)) {
                    return false;
                }
                file.flush(true);
                long from = before.get().bytesWritten();
                return watch.counters()
                        .filter(after -> after.bytesWritten() - from < TRIAL_BYTES / 2)
                        .isPresent();
            } finally {
                Files.deleteIfExists(trial);
            }
        } catch (IOException e) {
            // a drive that refuses does so again when it is written
            return false;
        }
    }

    @Override
    public IoMode ioMode() {
        return writing.mode();
    }

    @Override
    public String ioReason() {
        return writing.reason();
    }

    @Override
    public Optional<Counters> counters() {
        return watch.counters();
    }

    @Override
    public long busyMs() {
        return watch.busyMs();
    }

    @Override
    public Presence presence() {
        return watch.presence();
    }

    /**
     * Write-through leaves what was written in the host's memory, where a read would find it instead of on the device.
     * All of it is on the device already, so dropping it costs no write. Needs Linux and root. No {@code sync} is run:
     * it would wait for every other drive, and starting a process can block while a file is open on a hung one.
     */
    @Override
    public void forgetCached() {
        if (writing.mode() != IoMode.WRITE_THROUGH || !Files.exists(DROP_CACHES)) {
            return;
        }
        try {
            TimedCall.within(PATIENCE, "let the system forget what it holds in memory", () -> {
                sync(folder);
                Files.writeString(DROP_CACHES, "3", StandardOpenOption.WRITE);
                return true;
            });
        } catch (IOException | RuntimeException e) {
            // best effort: the device's read counter shows whether the reads came from the device
        }
    }

    @Override
    public void close() {}

    private Path path(String name) throws IOException {
        if (!NAME.matcher(name).matches()) {
            throw new IOException("\"" + name + "\" is no name of a file on the drive: use 1 to 120 letters, digits,"
                    + " dots, dashes and underscores, and no dot first");
        }
        return folder.resolve(name);
    }
}
