package tracksoak.bench.command;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import tracksoak.bench.drive.find.DriveFinder;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.job.Rooms;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.HostFacts;

/** Rooms furnished for a test: folders below {@code folder}, drives as given; any other path is on the first of them. */
public final class TestRooms implements Rooms {

    private final Path folder;
    private final List<FoundDrive> drives;

    /** What the person's browser does with a page; there is none unless a test gives one. */
    public Predicate<URI> browser = page -> false;

    /** What is in a place, where that is another than the first drive; may be changed at any time. */
    public final Map<Path, FoundDrive> at = new HashMap<>();

    public TestRooms(Path folder, List<FoundDrive> drives) {
        this.folder = folder;
        this.drives = drives;
    }

    public static FoundDrive stick(String mount, String maker, String model) {
        DriveFacts facts = DriveFacts.builder()
                .rotational(false)
                .system(false)
                .maker(maker)
                .model(model)
                .serial("B4RN-0001")
                .sizeBytes(64_000_000_000L)
                .bus("usb")
                .linkMbps(480.0)
                .removable(true)
                .node("sdx")
                .mount(mount)
                .fileSystem("exfat")
                .fileSystemBytes(63_900_000_000L)
                .freeBytes(58_000_000_000L)
                .clusterBytes(131_072L)
                .checkByHand(List.of("Is it on a fast port?"))
                .build();
        return new FoundDrive(FoundDrive.Place.DRIVE, facts, "stick-" + maker, false, null);
    }

    /** The drive {@code path} really lies on, said to be no drive of the system's and to have room. */
    public static FoundDrive roomy(Path path) throws IOException {
        return roomy(path, "B4RN-0002");
    }

    public static FoundDrive roomy(Path path, String serial) throws IOException {
        FoundDrive real = new DriveFinder().at(path);
        DriveFacts facts = real.facts();
        return new FoundDrive(
                FoundDrive.Place.DRIVE,
                DriveFacts.builder()
                        .rotational(false)
                        .system(false)
                        .maker("Barley")
                        .model("Wagon")
                        .serial(serial)
                        .sizeBytes(64_000_000_000L)
                        .bus("usb")
                        .linkMbps(5000.0)
                        .removable(true)
                        .node(facts.node())
                        .mount(facts.mount())
                        .fileSystem("ext4")
                        .fileSystemBytes(63_900_000_000L)
                        .freeBytes(58_000_000_000L)
                        .clusterBytes(4096L)
                        .build(),
                "test-" + Integer.toHexString(path.hashCode()),
                false,
                null);
    }

    public static FoundDrive unmounted() {
        DriveFacts facts =
                DriveFacts.builder().sizeBytes(1_000_000_000L).node("sdy").build();
        return new FoundDrive(FoundDrive.Place.DRIVE, facts, "sdy-1", false, "mount it first");
    }

    @Override
    public Path sessionsFolder() {
        return folder.resolve("sessions");
    }

    @Override
    public Path recordsFolder() {
        return folder.resolve("records");
    }

    @Override
    public Path cacheFolder() {
        return folder.resolve("cache");
    }

    @Override
    public Path stateFolder() {
        return folder.resolve("state");
    }

    @Override
    public List<FoundDrive> drives() {
        return drives;
    }

    @Override
    public FoundDrive driveAt(Path path) throws IOException {
        if (!Files.exists(path)) {
            throw new NoSuchFileException(path.toString());
        }
        FoundDrive there = at.get(path);
        if (there != null) {
            return there;
        }
        return path.toAbsolutePath().startsWith(folder) ? stick("/", "Host", "Disk") : drives.get(0);
    }

    @Override
    public boolean opened(URI page) {
        return browser.test(page);
    }

    @Override
    public HostFacts host() {
        return new HostFacts("test", "test", null, 2, null, "test");
    }
}
