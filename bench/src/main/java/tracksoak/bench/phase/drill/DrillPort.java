package tracksoak.bench.phase.drill;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.Drive;

/** Where the drive of a drill is plugged in. Called by the drill's own thread; answers in bounded time. */
public interface DrillPort {

    /** On virtual time: the drive goes at this moment of the clock. */
    default void pullAt(long clockNs) {}

    /** Whether the drill's folder cannot be reached, for systems that do not tell whether a device is there. */
    boolean unreachable();

    /** Looks once for the drive; empty while it is not back. */
    Optional<Back> look();

    /**
     * The drive after it came back, to be read only.
     *
     * @param drive reached through the drill's own folder
     * @param node name of the device now
     * @param mount where its file system is mounted now
     * @param folder where the folder is now
     * @param readOnly whether the file system refuses writes now
     * @param marker whether the file that says whose the folder is survived
     */
    record Back(
            Drive drive,
            @Nullable String node,
            @Nullable String mount,
            String folder,
            boolean readOnly,
            boolean marker) {}
}
