package tracksoak.bench.oracle;

import java.io.IOException;
import java.io.UncheckedIOException;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.profiles.Session;

/**
 * A line-check or a sound-check once more, without any of the bench's classes but the drive's behaviours: both takes are
 * played by {@link BruteQueue}, the fill by {@link BruteFill}, in the order of docs/method.md (take, fill, read back and
 * deleted, take), and held against the limits that stand there under "Criteria". For plans whose takes have one length and
 * that leave the drive no rest, for takes of less than 40 s (no odds are told), fills of less than 60 rounds (no cliff counts) and
 * files that never come to their limit.
 */
public final class BruteCheck {

    private final Session session;
    private final DriveServer server;
    private double worst;
    private double backlog;
    private boolean kept = true;

    private BruteCheck(Session session, DriveServer server) {
        this.session = session;
        this.server = server;
    }

    /** Plays the plan on the drive as new, without probes. */
    static BruteCheck of(Session session, DriveModel model, Plan plan) {
        return of(session, model, plan, 0);
    }

    /**
     * Plays the plan on the drive as new; what comes after its last take can change none of these figures.
     *
     * @param probes single blocks laid first
     */
    public static BruteCheck of(Session session, DriveModel model, Plan plan, int probes) {
        BruteCheck check = new BruteCheck(session, DriveServer.plugged(model));
        try {
            if (probes > 0) {
                check.server.probe(probes);
            }
            if (plan.takeBeforeS() > 0) {
                check.take(plan.takeBeforeS());
            }
            if (plan.fillCapS() > 0) {
                check.fill(plan);
            }
            check.take(plan.takeAfterS());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return check;
    }

    /** The largest share of a limit that was used: above 1 is a miss. */
    public double worstShare() {
        return worst;
    }

    /** The largest share of the buffer and its margin that the backlog used: above 1 is a miss. */
    double backlogShare() {
        return backlog;
    }

    /** Whether no audio was lost. */
    public boolean kept() {
        return kept;
    }

    private void take(double seconds) throws IOException {
        BruteQueue queue = new BruteQueue(session, seconds);
        long recordNs = server.nowNs();
        server.begin(session.streams().size());
        server.synced();
        queue.makesFiles(server.nowNs() - recordNs);
        queue.play(server);
        Expected expected = Expected.of(queue, seconds);
        queue.close(server);
        worst = Math.max(worst, expected.worstShare(session, queue.closeMs));
        backlog = Math.max(backlog, expected.backlogShare(session));
        kept &= expected.lostMs() == 0;
    }

    /** A mean below what is asked is settled by a take of the session's whole length after it. */
    private void fill(Plan plan) throws IOException {
        BruteFill fill = BruteFill.of(session, server, plan.fillCapS(), plan.roundS());
        server.finishInTurn();
        server.readBackAndDelete();
        double times = fill.meanBytesPerSecond() / session.bytesPerSecond();
        if (plan.takeAfterS() < session.lengthS()) {
            worst = Math.max(worst, session.margins().rate() / times);
        }
    }
}
