package tracksoak.bench.job;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.history.Likeness;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.sign.SignatureState;
import tracksoak.report.roster.HistoryEntry;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.event.RecordRef;
import tracksoak.report.roster.identity.DriveId;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.standing.RecordDigest;
import tracksoak.report.roster.store.RosterPlace;

/**
 * A drive's earlier runs out of the roster: those of the whole crew, and those whose folders are elsewhere. Only records
 * that hold and whose tester is known count. A roster that cannot be asked is said in a line and changes nothing.
 */
public final class RosterRuns {

    /** The latest of a drive that are looked at. */
    private static final int MOST = 200;

    private final RosterPlace place;
    private final DriveFacts drive;
    private final @Nullable String tag;
    private final EarlierRuns known;

    private RosterRuns(RosterPlace place, DriveFacts drive, @Nullable String tag, EarlierRuns known) {
        this.place = place;
        this.drive = drive;
        this.tag = tag;
        this.known = known;
    }

    /**
     * {@code known} and what the roster has besides. No roster is made where there is none.
     *
     * @param tag what the crew calls the drive, null if nobody said
     */
    public static EarlierRuns and(
            EarlierRuns known, DriveFacts drive, @Nullable String tag, RosterPlace place, JobListener listener) {
        try {
            Path file = place.file();
            if (file != null && !Files.exists(file)) {
                return known;
            }
            try (Roster roster = RosterAccess.open(place)) {
                return known.and(new RosterRuns(place, drive, tag, known).in(roster));
            }
        } catch (Problem wrong) {
            listener.note(
                    "no earlier runs were taken from the roster: " + Inert.whole(String.valueOf(wrong.getMessage())));
            return known;
        }
    }

    private EarlierRuns in(Roster roster) {
        List<EarlierRuns.Match> found = new ArrayList<>();
        int looked = 0;
        int future = 0;
        int unsigned = 0;
        for (String id : ids(roster)) {
            for (HistoryEntry entry : roster.history(id)) {
                RecordRef ref = entry.event().record();
                RecordDigest digest = entry.digest();
                if (ref == null || digest == null || !entry.isOf(id)) {
                    continue;
                }
                boolean good = entry.record() == SignatureState.GOOD;
                if (known.holds(digest.runId())) {
                    looked += good ? 1 : 0;
                    continue;
                }
                if (!good) {
                    unsigned++;
                    continue;
                }
                if (entry.future()) {
                    future++;
                    continue;
                }
                looked++;
                if (found.size() >= MOST) {
                    continue;
                }
                RunRecord record = roster.record(ref.sha256());
                found.add(EarlierRuns.Match.of(record, () -> load(ref.sha256()), likeness(record)));
            }
        }
        return new EarlierRuns(found, looked, passedOver(future, unsigned));
    }

    private static List<String> passedOver(int future, int unsigned) {
        List<String> why = new ArrayList<>();
        if (future > 0) {
            why.add(runs(future) + " dated in the future of this computer's clock, which says "
                    + RosterAccess.clock().instant().truncatedTo(ChronoUnit.SECONDS)
                    + ": a clock was wrong, or the run was simulated.");
        }
        if (unsigned > 0) {
            why.add(runs(unsigned) + " not signed by a tester the roster knows, or changed since.");
        }
        return why;
    }

    private static String runs(int count) {
        return Count.inDigits(count, "run") + " of this drive in the roster " + (count == 1 ? "is" : "are")
                + " passed over, being";
    }

    /** Opened anew: a run lasts for hours, and nobody keeps a roster open, or all its records in memory, for so long. */
    private RunRecord load(String sha256) {
        try (Roster roster = RosterAccess.open(place)) {
            return roster.record(sha256);
        } catch (RecordException damaged) {
            throw damaged;
        } catch (Problem gone) {
            throw new RecordException(
                    "the record of an earlier run cannot be read",
                    place.toString(),
                    String.valueOf(gone.getMessage()),
                    "look at the roster, or leave it out with --no-roster");
        }
    }

    /** As the drive's hardware names it, and where that tells too little as the crew does. */
    private Set<String> ids(Roster roster) {
        Set<String> ids = new LinkedHashSet<>();
        DriveIdentity identity = DriveIdentity.of(drive);
        String id = DriveId.of(identity, tag, "");
        for (String name : tag == null || identity.unique() ? List.of(id) : List.of(id, tag)) {
            try {
                ids.add(roster.drive(name, null).drive().id());
            } catch (Problem unknown) {
                if (unknown.kind() != Problem.Kind.NOT_FOUND) {
                    throw unknown;
                }
            }
        }
        return ids;
    }

    private Likeness likeness(RunRecord record) {
        return Likeness.of(drive, tag, record.drive(), record.tag())
                .orElseGet(() -> new Likeness(false, "by the roster, in which somebody said that it was this drive"));
    }
}
