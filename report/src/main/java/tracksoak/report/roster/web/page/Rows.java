package tracksoak.report.roster.web.page;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Times;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.view.Shown;
import tracksoak.report.roster.BoardRow;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.standing.Evidence;
import tracksoak.report.roster.standing.SessionStanding;
import tracksoak.report.roster.standing.Standing;
import tracksoak.report.roster.web.page.view.DriveRow;
import tracksoak.report.roster.web.page.view.StandingView;

/** Drives as rows and in words. */
public final class Rows {

    private Rows() {}

    static DriveRow of(BoardRow row) {
        List<String> flags = new ArrayList<>();
        row.conflicts()
                .forEach(conflict -> flags.add(
                        switch (conflict.kind()) {
                            case TAG_ON_SEVERAL_DRIVES -> "tag on several drives";
                            case DRIVE_UNDER_SEVERAL_TAGS -> "under several tags";
                        }));
        if (row.drive().unsigned() > 0) {
            flags.add(row.drive().unsigned() + " not well signed");
        }
        long last = row.drive().lastRecordMs();
        return new DriveRow(
                href(row),
                row.drive().tags().isEmpty()
                        ? List.of(Shown.of("no tag"))
                        : row.drive().tags().stream().map(Shown::of).toList(),
                Shown.of(hardware(row.drive().identity())),
                Shown.of(serial(row.drive().identity())),
                standing(row.standing(), row.session()),
                flags,
                last == 0 ? "never" : Times.day(Instant.ofEpochMilli(last)) + (row.future() ? " (in the future)" : ""));
    }

    static String href(BoardRow row) {
        return "/drives/" + row.drive().id();
    }

    /** Maker, model and size. */
    static String hardware(@Nullable DriveIdentity identity) {
        if (identity == null) {
            return "unknown drive";
        }
        Long size = identity.sizeBytes();
        return identity.title() + (size == null ? "" : ", " + Units.bytes(size));
    }

    static String serial(@Nullable DriveIdentity identity) {
        String serial = identity == null ? null : identity.serial();
        return serial == null || serial.isBlank() ? "no serial number" : serial;
    }

    /** What a drive is worth for a session. */
    public static StandingView standing(SessionStanding standing, String session) {
        return new StandingView(
                standing.standing().word(),
                Shown.of(session),
                when(standing),
                seen(standing),
                Shown.whole(standing.why()));
    }

    private static String seen(SessionStanding standing) {
        Evidence evidence = standing.evidence();
        return evidence == null || standing.standing() != Standing.CLEARED ? "" : evidence.minutes() + " seen";
    }

    private static String when(SessionStanding standing) {
        return switch (standing.standing()) {
            case TRUSTED, CLEARED -> "until " + Times.day(standing.validUntil());
            case DUE, FAILED, WITHDRAWN -> standing.since() == null ? "" : "since " + Times.day(standing.since());
            case UNPROVEN -> "";
        };
    }
}
