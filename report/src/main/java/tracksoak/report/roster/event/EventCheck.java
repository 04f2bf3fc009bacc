package tracksoak.report.roster.event;

import java.time.Instant;
import java.util.UUID;
import java.util.regex.Pattern;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.profiles.base.Times;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.sign.TesterName;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.identity.DriveId;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.identity.DriveTag;

/** Bounds of every part of an event, whoever made it, and which parts each kind has. */
final class EventCheck {

    static final int LONGEST_WHY = 1_000;
    static final int MOST_LIFTS = 500;
    private static final Pattern SHA256 = Pattern.compile("[0-9a-f]{64}");

    private final RosterEvent event;

    private EventCheck(RosterEvent event) {
        this.event = event;
    }

    /** Throws at the first part that cannot be, and where the author's signature is not written in the one way there is. */
    static void checkSigned(RosterEvent event) {
        check(event);
        new EventCheck(event)
                .require(
                        VerifyKey.signature(event.signature()).length > 0,
                        "signature",
                        event.signature(),
                        "64 bytes in base64url, written in the one way there is");
    }

    /** Throws at the first part that cannot be. The signature is not looked at. */
    static void check(RosterEvent event) {
        try {
            new EventCheck(event).parts();
        } catch (RecordException e) {
            throw Kind.REFUSED.problem("the event " + event.id(), e.why(), e.todo(), e);
        }
    }

    /** Throws where what a person wrote is too long: unlike an event from elsewhere, they can put it right. */
    static void typed(String text) {
        if (text.length() > LONGEST_WHY) {
            throw Problem.askedWrong(
                    "what was written has " + Count.number(text.length())
                            + " characters; a note or a reason has at most " + Count.number(LONGEST_WHY),
                    "shorten it");
        }
    }

    private void parts() {
        require(EventName.isId(event.id()), "id", event.id(), "a UUID of version 7");
        dated(event.at());
        long idMs = UUID.fromString(event.id()).getMostSignificantBits() >>> 16;
        require(idMs == event.at().toEpochMilli(), "at", event.at(), "the time in its id");
        name("by", event.by());
        new VerifyKey(event.key());
        text();
        EventKind kind = event.kind();
        require(
                kind.aboutDrive() == (event.drive() != null),
                "drive",
                event.drive(),
                "one for events about drives only");
        require(event.drive() == null || DriveId.isOne(event.drive()), "drive", event.drive(), "an id of a drive");
        boolean tagged = kind == EventKind.TAG_GIVEN;
        boolean mayTag = tagged || kind == EventKind.RECORD_ENTERED || kind == EventKind.CONFLICT_SETTLED;
        require(event.tag() == null ? !tagged : mayTag, "tag", event.tag(), "one where a tag is given");
        require(event.tag() == null || DriveTag.isOne(event.tag()), "tag", event.tag(), "a tag such as S-014");
        lifts();
        record();
        subject();
    }

    /** Throws where no event can be of that time. */
    static void dated(Instant at) {
        if (!Times.possible(at)) {
            throw EventNode.refused("it is dated " + at + ", and 2000 to 2199 is possible");
        }
    }

    private void text() {
        boolean asked = event.kind() == EventKind.NOTE_WRITTEN
                || event.kind() == EventKind.DRIVE_WITHDRAWN
                || event.kind() == EventKind.DRIVE_RESTORED
                || event.kind() == EventKind.CONFLICT_SETTLED
                || event.kind() == EventKind.KEY_REVOKED;
        require(!asked || !event.why().isBlank(), "why", "empty", "a few words");
        require(
                event.why().length() <= LONGEST_WHY,
                "why",
                event.why().length() + " characters",
                "at most " + LONGEST_WHY);
        require(whole(event.why()), "why", "half a character", "whole ones");
    }

    private void lifts() {
        boolean some = event.kind() == EventKind.DRIVE_RESTORED || event.kind() == EventKind.CONFLICT_SETTLED;
        require(some || event.lifts().isEmpty(), "lifts", event.lifts().size(), "none for this kind");
        require(
                event.kind() != EventKind.DRIVE_RESTORED || !event.lifts().isEmpty(),
                "lifts",
                "none",
                "the withdrawals lifted");
        require(event.lifts().size() <= MOST_LIFTS, "lifts", event.lifts().size(), "at most " + MOST_LIFTS);
        for (String ref : event.lifts()) {
            require(EventName.isOne(ref), "lifts", ref, "names of events");
        }
    }

    private void record() {
        RecordRef record = event.record();
        require(
                (event.kind() == EventKind.RECORD_ENTERED) == (record != null),
                "record",
                "",
                "one where one is entered");
        if (event.identity() != null) {
            event.identity().check();
            DriveIdentity identity = event.identity();
            require(
                    whole(identity.maker()) && whole(identity.model()) && whole(identity.serial()),
                    "identity",
                    "half a character",
                    "whole ones");
            boolean follows = event.drive() != null
                    && (DriveId.isLoose(event.drive())
                            || DriveId.of(event.identity(), event.tag(), "").equals(event.drive()));
            require(entersRecord(event) || follows, "drive", event.drive(), "the one that follows from its hardware");
        }
        if (record == null) {
            return;
        }
        require(event.identity() != null, "identity", "none", "the drive's hardware");
        require(SHA256.matcher(record.sha256()).matches(), "record.sha256", record.sha256(), "64 hexadecimal digits");
        name("record.by", record.by());
        new VerifyKey(record.key());
        require(
                record.signature().isEmpty() || VerifyKey.signature(record.signature()).length > 0,
                "record.signature",
                record.signature(),
                "64 bytes in base64url, written in the one way there is");
        if (event.identity() != null) {
            String drive = DriveId.of(event.identity(), event.tag(), record.sha256());
            require(drive.equals(event.drive()), "drive", event.drive(), drive + ", which follows from its hardware");
        }
    }

    private static boolean entersRecord(RosterEvent event) {
        return event.kind() == EventKind.RECORD_ENTERED;
    }

    private void subject() {
        KeyRef subject = event.subject();
        require(event.kind().aboutDrive() == (subject == null), "subject", "", "one for events about keys only");
        if (subject != null) {
            new VerifyKey(subject.key());
            name("subject.name", subject.name());
        }
    }

    /** Whether no surrogate stands alone: such a text has no bytes that could be signed. */
    private static boolean whole(@org.jspecify.annotations.Nullable String text) {
        return text == null
                || text.codePoints().noneMatch(c -> c >= Character.MIN_SURROGATE && c <= Character.MAX_SURROGATE);
    }

    private void name(String where, String name) {
        require(TesterName.checked(name).equals(name), where, name, "a name without white space at its ends");
    }

    private void require(boolean fine, String where, @org.jspecify.annotations.Nullable Object value, String allowed) {
        if (!fine) {
            throw Kind.REFUSED.problem(
                    "the event " + Inert.text(event.id()) + " (" + event.kind().word() + ")",
                    where + " is " + Inert.text(String.valueOf(value)) + ", allowed is " + allowed,
                    "it is damaged or was edited: get it again");
        }
    }
}
