package tracksoak.report.roster.event;

import com.github.f4b6a3.uuid.UuidCreator;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.RecordParts;
import tracksoak.profiles.base.Times;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.identity.DriveId;
import tracksoak.report.roster.identity.DriveIdentity;

/** Makes events: each is checked, dated and signed. One thread. */
public final class EventDraft {

    /** Most events that one takes back. */
    public static final int MOST_LIFTS = EventCheck.MOST_LIFTS;

    private final String why;
    private final RecordParts<RosterEvent> parts = RecordParts.empty(RosterEvent.class);

    private EventDraft(EventKind kind, String why) {
        this.why = why.strip();
        parts.with("kind", kind).with("why", this.why);
    }

    private static EventDraft about(String drive, EventKind kind, String why) {
        return new EventDraft(kind, why).with("drive", drive);
    }

    private static EventDraft about(VerifyKey key, String name, EventKind kind, String why) {
        return new EventDraft(kind, why).with("subject", new KeyRef(key.text(), name));
    }

    private EventDraft with(String part, @Nullable Object value) {
        parts.with(part, value);
        return this;
    }

    /** A record is entered; the drive follows from its facts and, where those do not tell drives apart, the tag. */
    public static EventDraft record(SignedRecord signed, @Nullable String tag) {
        var run = signed.record();
        DriveIdentity identity = DriveIdentity.of(run.drive());
        String sha256 = signed.sha256();
        RecordRef ref = new RecordRef(sha256, signed.by(), signed.key().text(), VerifyKey.encode(signed.signature()));
        return about(DriveId.of(identity, tag, sha256), EventKind.RECORD_ENTERED, "")
                .with("identity", identity)
                .with("tag", tag)
                .with("record", ref);
    }

    /** A drive is given a tag. */
    public static EventDraft tag(String drive, @Nullable DriveIdentity identity, String tag, String why) {
        return about(drive, EventKind.TAG_GIVEN, why).with("identity", identity).with("tag", tag);
    }

    /** A note is written about a drive. */
    public static EventDraft note(String drive, String note) {
        return about(drive, EventKind.NOTE_WRITTEN, note);
    }

    /** A drive is withdrawn. */
    public static EventDraft withdraw(String drive, String why) {
        return about(drive, EventKind.DRIVE_WITHDRAWN, why);
    }

    /** Withdrawals are lifted. */
    public static EventDraft restore(String drive, List<String> lifts, String why) {
        return about(drive, EventKind.DRIVE_RESTORED, why).with("lifts", lifts);
    }

    /** Tags of a drive are taken back, and one kept or none. */
    public static EventDraft settle(String drive, @Nullable String kept, List<String> lifts, String why) {
        return about(drive, EventKind.CONFLICT_SETTLED, why).with("tag", kept).with("lifts", lifts);
    }

    /** A key is made known. */
    public static EventDraft addKey(VerifyKey key, String name, String why) {
        return about(key, name, EventKind.KEY_ADDED, why);
    }

    /** A key is revoked. */
    public static EventDraft revokeKey(VerifyKey key, String name, String why) {
        return about(key, name, EventKind.KEY_REVOKED, why);
    }

    /**
     * The event, dated and signed.
     *
     * @throws tracksoak.profiles.base.Problem if a part is out of bounds; ASKED_WRONG where a person can shorten what they wrote, CANNOT where their clock is wrong
     */
    public RosterEvent sign(TesterKey author, Instant now) {
        EventCheck.typed(why);
        Times.refuseWrongClock(now);
        Instant at = now.truncatedTo(ChronoUnit.MILLIS);
        RosterEvent open = parts.with("id", UuidCreator.getTimeOrderedEpoch(at).toString())
                .with("at", at)
                .with("by", author.name())
                .with("key", author.verifyKey().text())
                .with("signature", "")
                .make();
        EventCheck.check(open);
        byte[] signature = author.sign(EventJson.signed(open));
        return parts.with("signature", VerifyKey.encode(signature)).make();
    }
}
