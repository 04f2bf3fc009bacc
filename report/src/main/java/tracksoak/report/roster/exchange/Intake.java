package tracksoak.report.roster.exchange;

import java.io.IOException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Digests;
import tracksoak.profiles.base.Failure;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordJson;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.event.RecordRef;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.standing.KnownEvent;
import tracksoak.report.roster.standing.RecordDigest;
import tracksoak.report.roster.standing.RecordedSession;

/**
 * Looks a parcel over before it is kept: the author's signature, the record's name and size, that the event and its record are about one
 * drive. A record whose own signature does not hold is taken, and shown as changed. Pure; any thread.
 */
public final class Intake {

    /**
     * A parcel that may be kept.
     *
     * @param known the event with what was found out
     * @param session the record's session, null without a record
     * @param gzip the record, null without one
     */
    @SuppressWarnings("ArrayRecordComponent") // handed on at once and never compared
    public record Checked(KnownEvent known, @Nullable RecordedSession session, byte @Nullable [] gzip) {}

    /**
     * What a check came to.
     *
     * @param good the parcel, if it may be kept
     * @param refused why not, if it may not
     */
    public record Outcome(Optional<Checked> good, Optional<Receipt.Refusal> refused) {}

    private static final Instant LATEST = Instant.parse("2200-01-01T00:00:00Z");

    private Intake() {}

    /** Checks a parcel without throwing. */
    public static Outcome outcome(Parcel parcel) {
        try {
            return new Outcome(Optional.of(check(parcel)), Optional.empty());
        } catch (Problem e) {
            String why = String.valueOf(e.getMessage());
            return new Outcome(
                    Optional.empty(),
                    Optional.of(new Receipt.Refusal(parcel.event().ref(), why)));
        }
    }

    /**
     * Checks a parcel.
     *
     * @throws Problem of kind REFUSED where it cannot be kept
     */
    public static Checked check(Parcel parcel) {
        RosterEvent event = parcel.event();
        if (!event.holds()) {
            throw refused(event, "its author's signature does not belong to it", null);
        }
        RecordRef ref = event.record();
        byte[] gzip = parcel.gzip();
        if (ref == null || gzip == null) {
            if (ref != null || gzip != null) {
                throw refused(
                        event,
                        ref == null ? "a record came with it and none belongs to it" : "its record is missing",
                        null);
            }
            return new Checked(new KnownEvent(event.ref(), event, null, false), null, null);
        }
        byte[] canonical = unpack(event, gzip);
        if (!Digests.sha256Hex(canonical).equals(ref.sha256())) {
            throw refused(event, "another record came with it than it names", null);
        }
        if (halfCharacter(canonical)) {
            throw refused(event, "its record holds half a character", null);
        }
        SignedRecord signed = signed(ref, canonical);
        RunRecord record;
        try {
            record = signed.record();
        } catch (RecordException e) {
            throw refused(event, e.getMessage() == null ? "its record cannot be read" : e.getMessage(), e);
        }
        dated(event, record.startedAt());
        dated(event, Objects.requireNonNullElse(record.endedAt(), record.startedAt()));
        if (!DriveIdentity.of(record.drive()).equals(event.identity())) {
            throw refused(event, "it names another drive than its record", null);
        }
        RecordDigest digest;
        try {
            digest = RecordDigest.of(record, ref.sha256());
        } catch (ArithmeticException | IllegalArgumentException | IllegalStateException | IndexOutOfBoundsException e) {
            throw refused(event, "its record cannot be judged: " + Inert.text(Failure.words(e)), e);
        }
        return new Checked(
                new KnownEvent(event.ref(), event, digest, signed.holds()), RecordedSession.of(record.session()), gzip);
    }

    private static void dated(RosterEvent event, String when) {
        Instant at;
        try {
            at = Instant.parse(when);
        } catch (DateTimeException e) {
            throw refused(event, "its record is dated " + Inert.text(when), e);
        }
        if (at.isBefore(Instant.EPOCH) || !at.isBefore(LATEST)) {
            throw refused(event, "its record is dated " + Inert.text(when) + ", and 1970 to 2199 is possible", null);
        }
    }

    /** Whether a surrogate stands alone, escaped or as bytes: the canonical form (RFC 8785) has none, and no database takes one. */
    private static boolean halfCharacter(byte[] json) {
        for (int i = 0; i + 1 < json.length; i++) {
            boolean escaped = json[i] == '\\'
                    && json[i + 1] == 'u'
                    && !(i + 3 < json.length && json[i + 2] == '0' && json[i + 3] == '0');
            if (json[i] == '\\' && !escaped) {
                i++; // what is escaped begins no escape of its own
            } else if (escaped || ((json[i] & 0xff) == 0xed && (json[i + 1] & 0xff) >= 0xa0)) {
                return true;
            }
        }
        return false;
    }

    /** A record as it was entered. */
    public static SignedRecord signed(RecordRef ref, byte[] canonical) {
        return SignedRecord.kept(canonical, ref.by(), new VerifyKey(ref.key()), VerifyKey.signature(ref.signature()));
    }

    /** Compresses a record. */
    public static byte[] pack(byte[] canonical) {
        return Digests.gzip(canonical);
    }

    /**
     * Unpacks a record that was kept, at most as large as a record may be.
     *
     * @throws IOException if it is damaged or too large
     */
    public static byte[] unpack(byte[] gzip) throws IOException {
        byte[] canonical = Digests.gunzip(gzip, RecordJson.MOST_BYTES);
        if (canonical.length > RecordJson.MOST_BYTES) {
            throw new IOException("unpacked it is larger than " + RecordJson.MOST_BYTES + " bytes");
        }
        return canonical;
    }

    private static byte[] unpack(RosterEvent event, byte[] gzip) {
        try {
            return unpack(gzip);
        } catch (IOException e) {
            throw refused(event, "its record cannot be unpacked: " + e.getMessage(), e);
        }
    }

    private static Problem refused(RosterEvent event, String why, @Nullable Throwable cause) {
        return Kind.REFUSED.problem(
                "the event " + event.id() + " (" + event.kind().word() + ") cannot be taken",
                why,
                "get it again from where it was made",
                cause);
    }
}
