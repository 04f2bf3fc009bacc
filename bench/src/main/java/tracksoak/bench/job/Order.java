package tracksoak.bench.job;

import com.github.f4b6a3.uuid.UuidCreator;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.Suitability;
import tracksoak.bench.phase.run.Budget;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.phase.run.RunExtras;
import tracksoak.bench.phase.run.RunRequest;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.ReadyFacts;

/**
 * What a person asked for, all checked.
 *
 * @param id UUIDv7 of the run
 * @param session what will be recorded
 * @param plan what to do
 * @param hangLimitS a call that has not come back after this long is given up, in s
 * @param reserveBytes room to stay free, null for the usual
 * @param seed seed of the payload, null for one made from the id
 * @param extras what the record says besides
 */
public record Order(
        UUID id,
        Session session,
        Plan plan,
        double hangLimitS,
        @Nullable Long reserveBytes,
        @Nullable Long seed,
        RunExtras extras) {

    private static final int USUAL_CLUSTER = 4096;

    /** What a full-show leaves for the file system's own tables, in bytes: own rule. */
    private static final long LAST_OF_WHOLE = 64L << 20;

    public Order {
        plan = plan.fitting(session);
    }

    /** An order with an id of its own. */
    public static Order of(
            Session session, Plan plan, double hangLimitS, @Nullable Long reserveBytes, @Nullable Long seed) {
        return new Order(
                UuidCreator.getTimeOrderedEpoch(), session, plan, hangLimitS, reserveBytes, seed, RunExtras.NOTHING);
    }

    /** The same order with something besides. */
    public Order with(RunExtras more) {
        return new Order(id, session, plan, hangLimitS, reserveBytes, seed, more);
    }

    /** The same order for a drive that was waited for. */
    public Order ready(ReadyFacts ready) {
        return with(extras.ready(ready));
    }

    /** Room that is to stay free beside the session, in bytes: as asked, else 5 % of the file system or 256 MiB, the larger. */
    public long kept(DriveFacts drive) {
        Long size = drive.fileSystemBytes();
        return reserveBytes != null ? reserveBytes : Suitability.reserveBytes(size == null ? 0 : size);
    }

    /** Room that stays free during the run, in bytes: the same, but that a full-show writes the last part of a drive too. */
    public long reserve(DriveFacts drive) {
        long kept = kept(drive);
        return plan.wholeSpace() && reserveBytes == null ? Math.min(kept, LAST_OF_WHOLE) : kept;
    }

    /** The seed of the payload. */
    public long payloadSeed() {
        return seed != null ? seed : id.getLeastSignificantBits();
    }

    /** What the plan writes on such a drive, as far as it can be told before it is opened. */
    public Budget budget(DriveFacts drive) {
        Long cluster = drive.clusterBytes();
        Long free = drive.freeBytes();
        long alignment = Math.max(USUAL_CLUSTER, cluster == null ? 0 : Math.min(cluster, 32 << 20));
        return Budget.of(session, plan, (int) alignment, free == null ? 0 : free, reserve(drive));
    }

    public RunRequest request(DriveFacts drive) {
        return new RunRequest(
                id.toString(),
                Version.tool(),
                session,
                plan.on(drive),
                payloadSeed(),
                hangLimitS,
                reserve(drive),
                extras.keeping(kept(drive)));
    }
}
