package tracksoak.bench.phase.run;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.timeleft.Forecast;
import tracksoak.bench.phase.timeleft.Pace;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.PhaseFacts;

/** Where a run is among its steps, and how long the rest will take by what is known of the drive. One thread. */
final class Steps {

    /** A phase says little of the pace before it has kept the drive busy for so many s. */
    private static final double LEAST_BUSY_S = 1;

    private final List<Step> all;
    private final FilesOnDrive onDrive;
    private final Pace pace;
    private int at = -1;

    Steps(List<Step> all, FilesOnDrive onDrive, Pace pace) {
        this.all = List.copyOf(all);
        this.onDrive = onDrive;
        this.pace = pace;
    }

    /** The next step, which begins now; null after the last. */
    @Nullable
    Step next() {
        at++;
        return at < all.size() ? all.get(at) : null;
    }

    /** A phase has ended: how fast the drive was at it tells how long others will take. */
    void learn(PhaseFacts facts) {
        pace.learn(facts);
    }

    /** What to show. */
    Progress progress(Session session, Bench.Now now, double bytesPerSecond) {
        return new Progress(
                all.get(at).kind(),
                at + 1,
                all.size(),
                now.elapsedS(),
                leftS(now),
                now.leftS(),
                session.tracks(),
                session.tracks() - now.hit(),
                now.backlogMs(),
                now.worstBacklogMs(),
                session.bufferS() * 1e3,
                now.worstServiceMs(),
                now.lostMs(),
                now.bytes(),
                bytesPerSecond);
    }

    private double leftS(Bench.Now now) {
        if (now.busyS() >= LEAST_BUSY_S) {
            pace.meanwhile(all.get(at).kind(), now.bytes(), now.busyS());
        }
        Forecast ahead = new Forecast(pace, onDrive.unreadBytes());
        all.get(at).expectedS(ahead);
        double left = now.leftS();
        for (int i = at + 1; i < all.size() && left >= 0; i++) {
            double seconds = all.get(i).expectedS(ahead);
            left = seconds < 0 ? Pace.UNKNOWN : left + seconds;
        }
        return left;
    }
}
