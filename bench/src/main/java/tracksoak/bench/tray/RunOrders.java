package tracksoak.bench.tray;

import com.github.f4b6a3.uuid.UuidCreator;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.drive.system.SystemFiles;
import tracksoak.bench.job.Drives;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RunFolder;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.DriveFacts;

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
        DriveFacts facts = one.drive().facts();
        return order(
                tray,
                words,
                Drives.name(facts),
                one.path().toString(),
                false,
                session,
                plan,
                one.tag(),
                links.of(facts.node()),
                facts.linkSuspect() ? null : facts.linkMbps());
    }

    /** An order for a simulated drive. */
    public RunOrder simulated(String name, String tray, List<String> words, String session, String plan, String tag) {
        return order(tray, words, name, name, true, session, plan, tag, List.of(), null);
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
            @Nullable List<String> onLinks,
            @Nullable Double linkMbps) {
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
                onLinks,
                linkMbps);
    }
}
