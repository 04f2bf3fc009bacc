package tracksoak.bench.job;

import com.github.f4b6a3.uuid.UuidCreator;
import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.climb.ClimbRunner;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.system.TimedCall;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.phase.run.Run;
import tracksoak.bench.phase.run.RunListener;
import tracksoak.bench.phase.run.RunRequest;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.HostFacts;
import tracksoak.report.record.facts.RunRecord;

/**
 * The drive a climb is made on: fill and takes in one place, checks there too or, where drives are simulated, on a new one
 * each. {@link #off} may be used by any thread at any time.
 */
public final class TargetClimbRunner implements ClimbRunner {

    private static final Duration PATIENCE = Duration.ofSeconds(60);

    private final OpenTarget place;
    private final @Nullable Supplier<? extends OpenTarget> renewed;
    private final Terms terms;
    private final Watcher watcher;
    private List<String> ofTheFill = List.of();
    private boolean hangs;
    private final OffSwitch off = new OffSwitch();

    /**
     * What is the same for all runs.
     *
     * @param seed seed of the payload
     * @param reserveBytes room that stays free
     * @param takeBytes room the fill leaves for the largest short take, besides the reserve
     */
    public record Terms(long seed, double hangLimitS, long reserveBytes, long takeBytes, HostFacts host) {}

    /** Hears of every run. */
    public interface Watcher {

        /** A listener for the run about to begin; what it hears of a check is kept. */
        RunListener before(Purpose purpose, int value);

        /** The run is over. */
        void after(Purpose purpose, RunRecord record);
    }

    /** @param renewed gives a new drive for each check, null where all is done on {@code place} */
    public TargetClimbRunner(
            OpenTarget place, @Nullable Supplier<? extends OpenTarget> renewed, Terms terms, Watcher watcher) {
        this.place = place;
        this.renewed = renewed;
        this.terms = terms;
        this.watcher = watcher;
    }

    @Override
    public boolean renews() {
        return renewed != null;
    }

    /** Whether the drive must not be touched any more. */
    public boolean hangs() {
        return hangs;
    }

    /** Ends the run that goes on, and every later one at once. */
    public OffSwitch off() {
        return off;
    }

    @Override
    public RunRecord run(Purpose purpose, int value, Session session, Plan plan) {
        Supplier<? extends OpenTarget> fresh = renewed;
        if (purpose != Purpose.CHECK || fresh == null) {
            if (purpose == Purpose.CHECK) {
                ofTheFill = List.of();
            }
            sweep();
            RunRecord record = runOn(place, purpose, value, session, plan);
            if (purpose == Purpose.FILL && !hangs) {
                ofTheFill = names();
            }
            return record;
        }
        OpenTarget target = fresh.get();
        try {
            return runOn(target, purpose, value, session, plan);
        } finally {
            target.clean();
        }
    }

    private RunRecord runOn(OpenTarget target, Purpose purpose, int value, Session session, Plan plan) {
        Run begun = begin(target, purpose, value, session, plan);
        RunRecord record = begun.call();
        hangs |= begun.driveHangs() && !target.virtual();
        watcher.after(purpose, record);
        return record;
    }

    private Run begin(OpenTarget target, Purpose purpose, int value, Session session, Plan plan) {
        UUID id = UuidCreator.getTimeOrderedEpoch();
        long kept = terms.reserveBytes() + (purpose == Purpose.FILL ? terms.takeBytes() : 0);
        Run prepared;
        try {
            prepared = new Run(
                    new RunRequest(
                            id.toString(), Version.tool(), session, plan, terms.seed(), terms.hangLimitS(), kept),
                    target,
                    terms.host(),
                    watcher.before(purpose, value));
        } catch (IllegalArgumentException unfit) {
            throw RunJob.unfit(unfit);
        }
        off.begins(prepared::cancel);
        return prepared;
    }

    /** Deletes what earlier runs wrote, but for the fill. */
    private void sweep() {
        if (hangs) {
            return;
        }
        try {
            patiently("delete what a take wrote", () -> {
                Drive drive = place.drive();
                for (String name : drive.list()) {
                    if (!ofTheFill.contains(name)) {
                        drive.delete(name);
                    }
                }
                return List.of();
            });
        } catch (IOException refused) {
            throw Problem.cannot(
                    "what a look of the climb wrote could not be deleted (" + Problem.reason(refused) + ")",
                    "see that the drive is plugged in and takes writes, then climb again");
        }
    }

    private List<String> names() {
        try {
            return patiently("list the fill", () -> place.drive().list());
        } catch (IOException gone) {
            return List.of();
        }
    }

    private List<String> patiently(String what, Callable<List<String>> work) throws IOException {
        if (!place.virtual()) {
            return TimedCall.within(PATIENCE, what, work);
        }
        try {
            return work.call();
        } catch (IOException | RuntimeException refused) {
            // a simulated drive that is gone or hangs; the next run tells so
            return List.of();
        } catch (Exception never) {
            throw new IllegalStateException(never);
        }
    }
}
