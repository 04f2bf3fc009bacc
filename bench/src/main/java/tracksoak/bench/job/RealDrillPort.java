package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.RemountFinder;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.drive.system.RecordedPlace;
import tracksoak.bench.phase.drill.DrillPort;

/** The ports of this computer, watched for the drill's own folder. */
final class RealDrillPort implements DrillPort {

    private final RemountFinder finder;
    private @Nullable Place found;

    RealDrillPort(RemountFinder finder) {
        this.finder = finder;
    }

    /** Where the folder is now, and the drive as it is reached there. */
    record Place(Path folder, Drive drive) {}

    /** Where the folder was found again, null if it was not. */
    @Nullable
    Place found() {
        return found;
    }

    @Override
    public boolean unreachable() {
        return finder.unreachable();
    }

    @Override
    public Optional<Back> look() {
        Optional<RemountFinder.Found> now = finder.look();
        if (now.isEmpty()) {
            return Optional.empty();
        }
        RemountFinder.Found it = now.get();
        try {
            RealDrive drive = RealDrive.openToRead(it.folder());
            found = new Place(it.folder(), drive);
            return Optional.of(new Back(
                    drive,
                    it.node(),
                    RecordedPlace.of(it.mount()),
                    RecordedPlace.of(it.folder()),
                    it.readOnly(),
                    it.marker()));
        } catch (IOException notYet) {
            // just mounted, or gone again: it is looked for until the wait is over
            return Optional.empty();
        }
    }
}
