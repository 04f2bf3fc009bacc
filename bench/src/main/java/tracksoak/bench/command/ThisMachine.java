package tracksoak.bench.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import tracksoak.bench.drive.DriveFinder;
import tracksoak.bench.drive.FoundDrive;

/** The rooms of this computer. */
final class ThisMachine implements Rooms {

    private final DriveFinder finder = new DriveFinder();

    @Override
    public Path sessionsFolder() {
        return Path.of(System.getProperty("user.home"), ".config", "tracksoak", "sessions");
    }

    @Override
    public Path recordsFolder() {
        return Path.of(System.getProperty("user.home"), ".local", "share", "tracksoak", "records");
    }

    @Override
    public List<FoundDrive> drives() {
        return finder.all();
    }

    @Override
    public tracksoak.report.record.HostFacts host() {
        return new tracksoak.report.record.HostFacts("Linux", "amd64", null, 2, null, "17");
    }

    @Override
    public FoundDrive driveAt(Path path) throws IOException {
        return finder.at(path);
    }
}
