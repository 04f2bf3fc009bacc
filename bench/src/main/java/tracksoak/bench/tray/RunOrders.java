package tracksoak.bench.tray;

import com.github.f4b6a3.uuid.UuidCreator;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.drive.system.SystemFiles;
import tracksoak.bench.job.Drives;
import tracksoak.bench.job.DryRun;
import tracksoak.bench.job.JobListener;
import tracksoak.bench.job.JobTerms;
import tracksoak.bench.job.Order;
import tracksoak.bench.job.Qualify;
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

    /** Refuses two places on one drive, and one tag for two. */
    public static void mustDiffer(List<Asked> asked) {
        Map<String, Path> seen = new HashMap<>();
        Map<String, Path> tagged = new HashMap<>();
        for (Asked one : asked) {
            Path twin = one.tag().isEmpty() ? null : tagged.put(one.tag(), one.path());
            if (twin != null) {
                throw Problem.askedWrong(
                        "the tag " + one.tag() + " is given to two drives, " + Inert.quoted(twin) + " and "
                                + Inert.quoted(one.path()),
                        "give each drive a tag of its own");
            }
            Path other = seen.put(one.drive().lockKey(), one.path());
            if (other != null) {
                throw Problem.askedWrong(
                        Inert.quoted(other) + " and " + Inert.quoted(one.path()) + " are on one drive",
                        "name each drive once");
            }
        }
    }

    /** What the roster would have against a drive's tag, one sentence each. */
    @FunctionalInterface
    public interface Tags {
        List<String> against(DriveFacts drive, String tag);
    }

    /** An order that nothing speaks against, and what it would do. */
    public record Ready(RunOrder order, DryRun would) {}

    /**
     * Orders for a tray, each looked at as before a run. Nothing is started.
     *
     * @param words the command of a run
     * @throws Problem if one of them could not be run now
     */
    public List<Ready> ready(
            List<Asked> asked,
            String tray,
            Function<Asked, List<String>> words,
            Order todo,
            boolean allowSystem,
            Tags tags) {
        mustDiffer(asked);
        return asked.stream()
                .map(one -> {
                    List<String> remarks = new ArrayList<>();
                    if (!one.tag().isEmpty()) {
                        remarks.addAll(tags.against(one.drive().facts(), one.tag()));
                    }
                    UUID id = UuidCreator.getTimeOrderedEpoch();
                    DryRun would = new Qualify(rooms, new Remarks(remarks))
                            .planOnDrive(one.path(), todo, new JobTerms(allowSystem, folder(id)));
                    String session = todo.session().name();
                    String plan = todo.plan().name().word();
                    return new Ready(of(id, one, tray, words.apply(one), session, plan, remarks), would);
                })
                .toList();
    }

    /** Keeps what is to be known before a run. */
    private record Remarks(List<String> all) implements JobListener {
        @Override
        public void note(String sentence) {
            all.add(sentence);
        }

        @Override
        public void trouble(Problem problem) {
            all.add(String.valueOf(problem.getMessage()));
        }
    }

    /**
     * An order for a drive.
     *
     * @param remarks what is to be known before, one sentence each
     */
    public RunOrder of(Asked one, String tray, List<String> words, String session, String plan, List<String> remarks) {
        return of(UuidCreator.getTimeOrderedEpoch(), one, tray, words, session, plan, remarks);
    }

    private RunOrder of(
            UUID id, Asked one, String tray, List<String> words, String session, String plan, List<String> remarks) {
        String name = Drives.name(one.drive().facts());
        return order(id, tray, words, name, one.path().toString(), one.drive(), session, plan, one.tag(), remarks);
    }

    /** An order for a simulated drive. */
    public RunOrder simulated(String name, String tray, List<String> words, String session, String plan, String tag) {
        UUID id = UuidCreator.getTimeOrderedEpoch();
        return order(id, tray, words, name, name, null, session, plan, tag, List.of());
    }

    /** @param found null for a simulated drive */
    private RunOrder order(
            UUID id,
            String tray,
            List<String> words,
            String drive,
            String place,
            @Nullable FoundDrive found,
            String session,
            String plan,
            String tag,
            List<String> remarks) {
        DriveFacts facts = found == null ? null : found.facts();
        return new RunOrder(
                RunOrder.SCHEMA,
                id.toString().replace("-", ""),
                tray,
                "",
                clock.epochMillis(),
                words,
                String.valueOf(Inert.kept(drive)),
                place,
                found == null,
                session,
                plan,
                tag,
                folder(id).toString(),
                facts == null ? List.of() : links.of(facts.node()),
                facts == null || facts.linkSuspect() ? null : facts.linkMbps(),
                found == null ? null : DriveMeant.of(found),
                remarks);
    }

    private Path folder(UUID id) {
        return RunFolder.usual(rooms.recordsFolder(), clock, id);
    }
}
