package tracksoak.report.roster.event;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Digests;
import tracksoak.report.record.sign.VerifyKey;
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

    /**
     * The event's name everywhere: its id, a dot, and 12 hexadecimal digits of the SHA-256 of the whole. Two events that
     * claim one id stay two. Sorted by name, events are in the order of their authors' clocks.
     */
    public String ref() {
        return id + "." + Digests.sha256Hex(EventJson.bytes(this)).substring(0, 12);
    }

    /** Id of the author's key. */
    public String keyId() {
        return new VerifyKey(key).id();
    }

    /** Whether the author's signature belongs to the event. */
    public boolean holds() {
        return new VerifyKey(key).holds(EventJson.signed(this), VerifyKey.decode(signature));
    }
}
