package tracksoak.bench.phase.run;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.timeleft.Pace;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.bench.phase.timeleft.WorkAhead;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.PhaseFacts;

/** Where a run is among its steps, and how long the rest will take by what is known of the drive. One thread. */
final class Steps {

    private final List<Step> all;
    private final Bench bench;
    private int at = -1;

    Steps(List<Step> all, Bench bench) {
        this.all = List.copyOf(all);
        this.bench = bench;
    }

    /** The next step, which begins now; null after the last. */
    @Nullable
    Step next() {
        at++;
        return at < all.size() ? all.get(at) : null;
    }

    /** A phase has ended: how fast the drive was at it tells how long others will take. */
    void learn(PhaseFacts facts) {
        bench.pace.learn(facts);
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
                bytesPerSecond,
                bench.hostDelayMs());
    }

    private double leftS(Bench.Now now) {
        bench.pace.meanwhile(all.get(at).kind(), now.bytes(), now.busyS());
        WorkAhead ahead = new WorkAhead(bench.pace, bench.onDrive.unreadBytes());
        all.get(at).expectedS(ahead);
        double left = now.leftS();
        for (int i = at + 1; i < all.size() && left >= 0; i++) {
            double seconds = all.get(i).expectedS(ahead);
            left = seconds < 0 ? Pace.UNKNOWN : left + seconds;
        }
        return left;
    }
}
