package tracksoak.bench.page;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.bench.TrayView;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.BoardRow;
import tracksoak.report.roster.HistoryEntry;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.identity.DriveId;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.standing.RecordDigest;

/**
 * Which models passed how often for which session, over all records of the roster: a PASS that makes a drive
 * trusted, and every FAIL. Worked out once for
 * each state of the roster. Any thread.
 */
final class Models {

    private static final int MOST_LINES = 200;

    /** The maker of drives that nobody can buy. */
    private static final String SIMULATED = "simulated";

    private final Roster roster;
    private long version = -1;
    private List<TrayView.Model> known = List.of();

    Models(Roster roster) {
        this.roster = roster;
    }

    private record Kind(String model, String session) implements Comparable<Kind> {
        @Override
        public int compareTo(Kind other) {
            int byModel = model.compareTo(other.model);
            return byModel != 0 ? byModel : session.compareTo(other.session);
        }
    }

    private static final class Tally {
        private final Set<String> drives = new HashSet<>();
        private int runs;
        private int passes;
        private int ofNobody;

        /** A drive without a serial and a tag has a name of its own in each of its records: nobody knows how many they are. */
        private String drivesInWords() {
            String loose = Count.inDigits(ofNobody, "run") + " of drives that nobody can tell apart";
            String known = Count.inDigits(drives.size(), "drive");
            return ofNobody == 0 ? known : drives.isEmpty() ? loose : known + ", and " + loose;
        }
    }

    synchronized List<TrayView.Model> all() {
        long now = roster.version();
        if (now != version) {
            known = count();
            version = now;
        }
        return known;
    }

    /** A drive that died is a FAIL, however far the run came; a run that came to no verdict is no answer. */
    private static boolean counts(RecordDigest digest) {
        return digest.outcome() == Verdict.Outcome.FAIL
                || (digest.outcome() == Verdict.Outcome.PASS && digest.trusting());
    }

    private List<TrayView.Model> count() {
        Map<Kind, Tally> tallies = new TreeMap<>();
        for (BoardRow row :
                roster.board(BoardQuery.all(null).page(0, BoardQuery.MOST_ROWS)).rows()) {
            DriveIdentity identity = row.drive().identity();
            if (identity == null || SIMULATED.equals(identity.maker())) {
                continue;
            }
            Long size = identity.sizeBytes();
            String model = identity.title() + (size == null ? "" : ", " + Units.bytes(size));
            for (HistoryEntry entry : roster.history(row.drive().id())) {
                RecordDigest digest = entry.digest();
                if (digest != null && entry.isOf(row.drive().id()) && !entry.lifted() && counts(digest)) {
                    Tally tally = tallies.computeIfAbsent(new Kind(model, digest.session()), kind -> new Tally());
                    if (DriveId.isLoose(row.drive().id())) {
                        tally.ofNobody++;
                    } else {
                        tally.drives.add(row.drive().id());
                    }
                    tally.runs++;
                    tally.passes += digest.outcome() == Verdict.Outcome.PASS ? 1 : 0;
                }
            }
        }
        List<TrayView.Model> lines = new ArrayList<>();
        tallies.forEach((kind, tally) -> {
            if (lines.size() < MOST_LINES) {
                lines.add(new TrayView.Model(
                        Shown.of(kind.model),
                        tally.drivesInWords(),
                        tally.passes + " of " + Count.inDigits(tally.runs, "run"),
                        Shown.of(kind.session)));
            }
        });
        return lines;
    }
}
