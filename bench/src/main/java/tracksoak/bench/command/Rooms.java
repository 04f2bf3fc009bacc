package tracksoak.bench.command;

import java.nio.file.Path;

/** The rooms the commands reach into, so that tests can furnish their own. */
interface Rooms {

    /** Where the user's own session files are kept. */
    Path sessionsFolder();

    static Rooms ofThisMachine() {
        return () -> Path.of(System.getProperty("user.home"), ".config", "tracksoak", "sessions");
    }
}
