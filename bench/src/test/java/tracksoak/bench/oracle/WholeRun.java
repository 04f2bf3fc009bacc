package tracksoak.bench.oracle;

import tracksoak.bench.phase.VirtualRun;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.phase.run.RunRequest;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.SimulatedDrive;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.RunRecord;

/** A whole run on virtual time, from the first take to the verdict. */
public final class WholeRun {

    private static final String ID = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f";
    private static final long FIRST_MS = 1_795_000_000_000L;
    private static final long RESERVE_BYTES = 256L << 20;

    private WholeRun() {}

    /** Does it. */
    public static RunRecord of(Session session, DriveModel model, Plan plan) {
        return of(ID, FIRST_MS, session, model, plan);
    }

    /** One that began at {@code startMs}, in ms since 1970. */
    static RunRecord of(String id, long startMs, Session session, DriveModel model, Plan plan) {
        VirtualClock clock = new VirtualClock(startMs);
        SimulatedDrive drive = model.plug(clock, LoopRun.HANG_LIMIT_NS);
        RunRequest request =
                new RunRequest(id, "tracksoak test", session, plan, 7, LoopRun.HANG_LIMIT_NS / 1e9, RESERVE_BYTES);
        return VirtualRun.withoutProbes(request, drive, clock);
    }
}
