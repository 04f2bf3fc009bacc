package tracksoak.report.roster.event;

import com.github.f4b6a3.uuid.UuidCreator;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Times;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.identity.DriveId;
import tracksoak.report.roster.identity.DriveIdentity;

/** Makes events: each is checked, dated and signed. Immutable. */
public final class EventDraft {

    /** Most events that one takes back. */
    public static final int MOST_LIFTS = EventCheck.MOST_LIFTS;

    private final EventKind kind;
    private final String why;
    private final @Nullable String drive;
    private final @Nullable DriveIdentity identity;
    private final @Nullable String tag;
    private final List<String> lifts;
    private final @Nullable RecordRef record;
    private final @Nullable KeyRef subject;

    private EventDraft(
            EventKind kind,
            String why,
            @Nullable String drive,
            @Nullable DriveIdentity identity,
            @Nullable String tag,
            List<String> lifts,
            @Nullable RecordRef record,
            @Nullable KeyRef subject) {
        this.kind = kind;
        this.why = why;
        this.drive = drive;
        this.identity = identity;
        this.tag = tag;
        this.lifts = List.copyOf(lifts);
        this.record = record;
        this.subject = subject;
    }

    /** A record is entered; the drive follows from its facts and, where those do not tell drives apart, the tag. */
    public static EventDraft record(SignedRecord signed, @Nullable String tag) {
        var run = signed.record();
        DriveIdentity identity = DriveIdentity.of(run.drive());
        String sha256 = signed.sha256();
        RecordRef ref = new RecordRef(sha256, signed.by(), signed.key().text(), VerifyKey.encode(signed.signature()));
        return new EventDraft(
                EventKind.RECORD_ENTERED, "", DriveId.of(identity, tag, sha256), identity, tag, List.of(), ref, null);
    }

    /** A drive is given a tag. */
    public static EventDraft tag(String drive, @Nullable DriveIdentity identity, String tag, String why) {
        return new EventDraft(EventKind.TAG_GIVEN, why, drive, identity, tag, List.of(), null, null);
    }

    /** A note is written about a drive. */
    public static EventDraft note(String drive, String note) {
        return new EventDraft(EventKind.NOTE_WRITTEN, note, drive, null, null, List.of(), null, null);
    }

    /** A drive is withdrawn. */
    public static EventDraft withdraw(String drive, String why) {
        return new EventDraft(EventKind.DRIVE_WITHDRAWN, why, drive, null, null, List.of(), null, null);
    }

    /** Withdrawals are lifted. */
    public static EventDraft restore(String drive, List<String> lifts, String why) {
        return new EventDraft(EventKind.DRIVE_RESTORED, why, drive, null, null, lifts, null, null);
    }

    /** Tags of a drive are taken back, and one kept or none. */
    public static EventDraft settle(String drive, @Nullable String kept, List<String> lifts, String why) {
        return new EventDraft(EventKind.CONFLICT_SETTLED, why, drive, null, kept, lifts, null, null);
    }

    /** A key is made known. */
    public static EventDraft addKey(VerifyKey key, String name, String why) {
        return new EventDraft(
                EventKind.KEY_ADDED, why, null, null, null, List.of(), null, new KeyRef(key.text(), name));
    }

    /** A key is revoked. */
    public static EventDraft revokeKey(VerifyKey key, String name, String why) {
        return new EventDraft(
                EventKind.KEY_REVOKED, why, null, null, null, List.of(), null, new KeyRef(key.text(), name));
    }

    /**
     * The event, dated and signed.
     *
     * @throws tracksoak.profiles.base.Problem if a part is out of bounds; ASKED_WRONG where a person can shorten what they wrote, CANNOT where their clock is wrong
     */
    public RosterEvent sign(TesterKey author, Instant now) {
        EventCheck.typed(why.strip());
        Times.refuseWrongClock(now);
        Instant at = now.truncatedTo(ChronoUnit.MILLIS);
        String id = UuidCreator.getTimeOrderedEpoch(at).toString();
        RosterEvent open = new RosterEvent(
                id,
                kind,
                at,
                author.name(),
                author.verifyKey().text(),
                why.strip(),
                drive,
                identity,
                tag,
                lifts,
                record,
                subject,
                "");
        EventCheck.check(open);
        byte[] signature = author.sign(EventJson.signed(open));
        return EventJson.withSignature(open, VerifyKey.encode(signature));
    }
}
