package tracksoak.bench.tray;

import com.github.f4b6a3.uuid.UuidCreator;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.drive.system.SystemFiles;
import tracksoak.bench.job.Drives;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RunFolder;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/** Makes orders for runs in processes of their own. Any thread. */
public final class RunOrders {

    private final Rooms rooms;
    private final EpochClock clock;
    private final Links links = new Links(SystemFiles.HERE);

    public RunOrders(Rooms rooms, EpochClock clock) {
        this.rooms = rooms;
        this.clock = clock;
    }

    /**
     * A drive to be tested.
     *
     * @param tag what the crew calls it, empty if nobody said
     */
    public record Asked(FoundDrive drive, Path path, String tag) {}

    /** A new id of 32 hex digits; later ones sort later. */
    public static String newId() {
        return UuidCreator.getTimeOrderedEpoch().toString().replace("-", "");
    }

    /** Refuses two places on one drive. */
    public static void mustDiffer(List<Asked> asked) {
        Map<String, Path> seen = new HashMap<>();
        for (Asked one : asked) {
            Path other = seen.put(one.drive().lockKey(), one.path());
            if (other != null) {
                throw Problem.askedWrong(
                        Inert.quoted(other) + " and " + Inert.quoted(one.path()) + " are on one drive",
                        "name each drive once");
            }
        }
    }

    /** An order for a drive. */
    public RunOrder of(Asked one, String tray, List<String> words, String session, String plan) {
        return order(
                tray,
                words,
                Drives.name(one.drive().facts()),
                one.path().toString(),
                false,
                session,
                plan,
                one.tag(),
                links.of(one.drive().facts().node()));
    }

    /** An order for a simulated drive. */
    public RunOrder simulated(String name, String tray, List<String> words, String session, String plan, String tag) {
        return order(tray, words, name, name, true, session, plan, tag, List.of());
    }

    private RunOrder order(
            String tray,
            List<String> words,
            String drive,
            String place,
            boolean simulated,
            String session,
            String plan,
            String tag,
            @org.jspecify.annotations.Nullable List<String> onLinks) {
        UUID id = UuidCreator.getTimeOrderedEpoch();
        return new RunOrder(
                RunOrder.SCHEMA,
                id.toString().replace("-", ""),
                tray,
                "",
                clock.epochMillis(),
                words,
                String.valueOf(Inert.kept(drive)),
                place,
                simulated,
                session,
                plan,
                tag,
                RunFolder.usual(rooms.recordsFolder(), clock, id).toString(),
                onLinks);
    }
}
