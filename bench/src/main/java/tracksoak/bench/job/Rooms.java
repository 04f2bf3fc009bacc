package tracksoak.bench.job;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.drive.find.HotplugSource;
import tracksoak.report.record.facts.HostFacts;

/** The rooms the commands reach into, so that tests can furnish their own. */
public interface Rooms {

    /** Where the user's own session files are kept. */
    Path sessionsFolder();

    /** Where run records are kept when no other place is asked for. */
    Path recordsFolder();

    /** What can be made again. */
    Path cacheFolder();

    /** Locks of runs that go on. */
    Path stateFolder();

    /** Where the tester's key and their own roster are kept. */
    default Path rosterFolder() {
        return recordsFolder().resolveSibling("");
    }

    /** What the tester wants to be called, for a new key; empty where nobody said. Never the account's name: others read it. */
    default String testerName() {
        return "";
    }

    /** The drives of this computer. */
    List<FoundDrive> drives();

    /**
     * The drive a path lies on.
     *
     * @throws java.nio.file.NoSuchFileException if there is no such path
     * @throws IOException if it cannot be reached
     */
    FoundDrive driveAt(Path path) throws IOException;

    /** What is plugged in right now. */
    default HotplugSource hotplug() {
        return HotplugSource.here();
    }

    /** This computer. */
    HostFacts host();

    /** Opens a page in the person's own browser, where there is a desktop; whether that was tried. */
    default boolean opened(URI page) {
        return false;
    }

    /** Asks the person at the terminal and waits for a line; null where nobody can answer. */
    default @Nullable String typedLine(String question) {
        return null;
    }
}
