package tracksoak.bench.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.Suitability;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.bench.DriveLine;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.roster.BoardRow;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.identity.DriveId;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.web.page.Rows;

/** Drives as the bench's pages show them. Any thread. */
final class DriveLines {

    private final Roster roster;

    DriveLines(Roster roster) {
        this.roster = roster;
    }

    DriveLine of(PluggedIn.One one) {
        DriveFacts facts = one.drive().facts();
        BoardRow row = row(facts);
        List<Shown> refusals = new ArrayList<>();
        List<Shown> remarks = new ArrayList<>();
        String toMount = one.drive().toMount();
        if (!one.drive().mounted()) {
            if (Suitability.dirty(facts)) {
                refusals.add(sentence(Suitability.NOT_IN_ORDER));
            }
            refusals.add(sentence(toMount == null ? "not mounted: mount it first" : toMount));
        }
        for (Suitability.Finding finding : one.findings()) {
            (finding.refused() ? refusals : remarks).add(sentence(finding.sentence()));
        }
        return new DriveLine(
                one.key(),
                Shown.of(one.name()),
                known(facts),
                Shown.of(row == null ? "" : String.join(" ", row.drive().tags())),
                row == null ? null : Rows.standing(row.standing(), row.session()),
                refusals,
                remarks,
                one.usable() ? "/bench/new?drive=" + one.key() : "",
                false);
    }

    /** Words of a command line as a sentence of a page. */
    static Shown sentence(String words) {
        return Shown.whole(Typed.placed(Count.sentence(words)));
    }

    /** What is wrong, and what to do about it, as a sentence of a page. */
    static Shown sentence(Problem problem) {
        return sentence(String.valueOf(problem.getMessage()));
    }

    private @Nullable BoardRow row(DriveFacts facts) {
        DriveIdentity identity = DriveIdentity.of(facts);
        if (!identity.unique()) {
            return null;
        }
        try {
            return roster.drive(DriveId.of(identity, null, ""), null);
        } catch (Problem notInTheRoster) {
            return null;
        }
    }

    private static List<Shown> known(DriveFacts facts) {
        List<Shown> known = new ArrayList<>();
        Long size = facts.sizeBytes();
        Long free = facts.freeBytes();
        add(known, size == null ? null : Units.bytes(size));
        add(known, TradeName.orNull(facts.fileSystem()));
        add(known, free == null ? null : Units.bytes(free) + " free");
        add(known, TradeName.orNull(facts.bus()));
        Double link = facts.linkMbps();
        add(known, link == null ? null : String.format(Locale.ROOT, "%.0f Mbit/s", link));
        add(known, facts.serial() == null ? null : "serial " + facts.serial());
        add(known, facts.mount());
        return known;
    }

    private static void add(List<Shown> known, @Nullable String word) {
        if (word != null && !word.isBlank()) {
            known.add(Shown.of(word));
        }
    }
}
