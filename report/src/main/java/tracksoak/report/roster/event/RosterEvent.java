package tracksoak.report.roster.event;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.identity.DriveId;
import tracksoak.report.roster.identity.DriveIdentity;

/**
 * One thing that happened, signed by whoever did it. Immutable. Read by {@link EventJson}, made by {@link EventDraft}.
 *
 * @param id UUIDv7, in lower case
 * @param kind what happened
 * @param at when, by the clock of the author's computer, to the millisecond
 * @param by name of the author
 * @param key the author's public key, 43 characters of base64url
 * @param why the author's reason or note, empty where none was given
 * @param drive id of the drive it is about, null for keys
 * @param identity the drive's hardware, where the event knows it
 * @param tag the tag given, entered with or kept
 * @param lifts names ({@link #ref}) of the events it takes back
 * @param record the record entered
 * @param subject the key it is about
 * @param signature the author's signature, 86 characters of base64url
 */
public record RosterEvent(
        String id,
        EventKind kind,
        Instant at,
        String by,
        String key,
        String why,
        @Nullable String drive,
        @Nullable DriveIdentity identity,
        @Nullable String tag,
        List<String> lifts,
        @Nullable RecordRef record,
        @Nullable KeyRef subject,
        String signature) {

    /** The schema written today. */
    public static final String SCHEMA = "tracksoak/roster-event/1";

    public RosterEvent {
        lifts = List.copyOf(lifts);
    }

    /** The event's name everywhere, see {@link EventName}. */
    public String ref() {
        return EventName.of(id, EventJson.bytes(this));
    }

    /**
     * The drive that the record it enters would be if nobody had given it a tag; null where the hardware tells drives apart, or
     * no record is entered.
     */
    public @Nullable String looseDrive() {
        return record == null || identity == null || identity.unique()
                ? null
                : DriveId.of(identity, null, record.sha256());
    }

    /** Id of the author's key. */
    public String keyId() {
        return new VerifyKey(key).id();
    }

    /** Whether the author's signature belongs to the event. */
    public boolean holds() {
        return new VerifyKey(key).holds(EventJson.signed(this), VerifyKey.signature(signature));
    }
}
