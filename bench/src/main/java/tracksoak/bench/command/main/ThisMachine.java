package tracksoak.bench.command.main;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.command.console.Terminals;
import tracksoak.bench.drive.find.DriveFinder;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.drive.system.HostFolders;
import tracksoak.bench.drive.system.HostProbe;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.base.OwnersOnly;
import tracksoak.report.record.facts.HostFacts;

/** The rooms of this computer. */
final class ThisMachine implements Rooms {

    /** Environment variable: the name a new key is made under. */
    private static final String TESTER = "TRACKSOAK_TESTER";

    private final DriveFinder finder = new DriveFinder();
    private final HostFolders folders = HostFolders.here();

    /** Closes to others what is there of our own folders: those of earlier versions were open to all users. */
    void keepToOwner() {
        for (Path folder : List.of(folders.state(), folders.cache(), rosterFolder(), folders.records())) {
            OwnersOnly.close(folder);
        }
    }

    @Override
    public Path sessionsFolder() {
        return folders.sessions();
    }

    @Override
    public Path recordsFolder() {
        return folders.records();
    }

    @Override
    public Path cacheFolder() {
        return folders.cache();
    }

    @Override
    public Path stateFolder() {
        return folders.state();
    }

    @Override
    public String testerName() {
        String said = System.getenv(TESTER);
        return said == null ? "" : said.strip();
    }

    @Override
    public List<FoundDrive> drives() {
        return finder.all();
    }

    @Override
    public FoundDrive driveAt(Path path) throws IOException {
        return finder.at(path);
    }

    @Override
    public HostFacts host() {
        return HostProbe.host();
    }

    @Override
    public boolean opened(URI page) {
        return OwnBrowser.open(page);
    }

    @Override
    public @Nullable String typedLine(String question) {
        return Terminals.typedLine(question);
    }
}
