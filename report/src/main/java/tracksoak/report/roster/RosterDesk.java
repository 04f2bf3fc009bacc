package tracksoak.report.roster;

import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Closest;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.sign.KeyRing;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.record.sign.TesterName;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.event.EventDraft;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.identity.DriveId;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.identity.DriveTag;
import tracksoak.report.roster.standing.Claim;
import tracksoak.report.roster.standing.CrewKeys;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.store.SqlStore;

/**
 * Where one person enters records and decides. Each act is one signed event, or a few that are kept together; when a method
 * returns they are on the disk. The person's key is made known with their first act. Any thread.
 *
 * <p>Every method throws {@link Problem}: ASKED_WRONG where the act makes no sense, NOT_FOUND for a drive or key that is
 * not known. {@code drive} is a tag, an id, or at least 6 characters of the beginning of an id; {@code why} is what the person says of it,
 * 1 to 1,000 characters.
 */
public final class RosterDesk {

    private final Roster roster;
    private final SqlStore store;
    private final TesterKey author;
    private final InstantSource clock;

    RosterDesk(Roster roster, SqlStore store, TesterKey author, InstantSource clock) {
        this.roster = roster;
        this.store = store;
        this.author = author;
        this.clock = clock;
    }

    /**
     * Enters a record. Entering the same again changes nothing about the drive.
     *
     * @param tag the crew's tag on the drive, null to take that of the record, if it has one
     * @return the event; {@link RosterEvent#drive} names the drive
     */
    public RosterEvent enter(SignedRecord record, @Nullable String tag) {
        String own = tag == null ? record.record().tag() : tag;
        EventDraft draft = EventDraft.record(
                record, own == null ? null : tag == null ? DriveTag.from(own).orElse(null) : DriveTag.of(own));
        RosterEvent event = draft.sign(author, clock.instant());
        keep(List.of(new Parcel(event, Intake.pack(record.canonical()))));
        return event;
    }

    /**
     * Says that a drive bears a tag. Where it has another already, or another drive has this one, that is a conflict until
     * someone settles it. A record without a usable serial and without a tag is entered again under the tag.
     */
    public RosterEvent tag(String drive, String tag, String why) {
        DriveState state = roster.view().find(drive);
        String wanted = DriveTag.of(tag);
        DriveIdentity identity = state.identity();
        List<Parcel> parcels = new ArrayList<>();
        if (DriveId.isLoose(state.id())) {
            roster.history(state.id()).stream()
                    .filter(entry -> entry.isOf(state.id()))
                    .flatMap(entry -> Stream.ofNullable(entry.digest()))
                    .findFirst()
                    .ifPresent(digest -> {
                        SignedRecord record = roster.signedRecord(digest.sha256());
                        parcels.add(new Parcel(
                                EventDraft.record(record, wanted).sign(author, clock.instant()),
                                Intake.pack(record.canonical())));
                    });
        } else if (identity != null && !DriveId.of(identity, wanted, "").equals(state.id())) {
            throw Kind.ASKED_WRONG.problem(
                    "the drive " + state.label() + " cannot be given the tag " + wanted,
                    "it has no usable serial, so its tag is its name",
                    "test it again under the new tag, and withdraw the old one");
        }
        return last(parcels, EventDraft.tag(state.id(), identity, wanted, why));
    }

    /** Gives a tag to a drive that may have no record yet, by its hardware. */
    public RosterEvent tag(DriveIdentity hardware, String tag, String why) {
        String wanted = DriveTag.of(tag);
        String id = DriveId.of(hardware, wanted, "");
        return act(EventDraft.tag(id, hardware, wanted, why));
    }

    /** Writes a note about a drive. */
    public RosterEvent note(String drive, String note) {
        return act(EventDraft.note(roster.view().find(drive).id(), note));
    }

    /** Takes a drive out of use, for every session, until a person lifts that. */
    public RosterEvent withdraw(String drive, String why) {
        return act(EventDraft.withdraw(roster.view().find(drive).id(), why));
    }

    /** Lifts every withdrawal of a drive that is known here. */
    public RosterEvent restore(String drive, String why) {
        DriveState state = roster.view().find(drive);
        if (state.withdrawals().isEmpty()) {
            throw Kind.ASKED_WRONG.problem(
                    "the drive " + state.label() + " cannot be restored", "it is not withdrawn", "look at its history");
        }
        Instant now = clock.instant();
        List<Parcel> parcels = someEach(state.withdrawals().stream())
                .map(lifts -> EventDraft.restore(state.id(), lifts, why).sign(author, now))
                .map(event -> new Parcel(event, null))
                .toList();
        keep(parcels);
        return parcels.get(0).event();
    }

    /** Names of claims, as many as one event takes back at a time. */
    private static Stream<List<String>> someEach(Stream<Claim> claims) {
        List<String> refs = claims.map(Claim::ref).toList();
        return IntStream.iterate(0, from -> from < refs.size(), from -> from + EventDraft.MOST_LIFTS)
                .mapToObj(from -> refs.subList(from, Math.min(refs.size(), from + EventDraft.MOST_LIFTS)));
    }

    /**
     * What a settlement changed.
     *
     * @param keeper id of the drive that keeps the tag
     * @param events the events made
     * @param lost the tags that were taken from each drive, by its id
     */
    public record Settled(String keeper, List<RosterEvent> events, Map<String, List<String>> lost) {
        public Settled {
            events = List.copyOf(events);
            lost = Collections.unmodifiableMap(new LinkedHashMap<>(lost));
        }
    }

    /**
     * Settles that a tag belongs to one drive: every other drive loses it, and this one loses every other tag. A tag that no drive bears is a slip:
     * there is nothing to settle about it.
     *
     * @return what was settled, with at least one event
     */
    public Settled settle(String tag, String drive, String why) {
        String kept = DriveTag.of(tag);
        DriveState named = roster.view().find(drive);
        borne(kept, named);
        DriveState keeper = bearer(named, kept);
        List<Parcel> parcels = new ArrayList<>();
        Map<String, List<String>> lost = new LinkedHashMap<>();
        Instant now = clock.instant();
        for (DriveState state : roster.view().states()) {
            boolean loose = DriveId.isLoose(state.id());
            if (loose && !state.tags().contains(kept)) {
                continue;
            }
            boolean keeps = loose ? leads(state, kept, keeper) : state.id().equals(keeper.id());
            List<String> loses = state.tags().stream()
                    .filter(borne -> borne.equals(kept) != keeps)
                    .toList();
            List<List<String>> lifts = new ArrayList<>();
            if (!loses.isEmpty()) {
                lost.put(state.id(), loses);
                someEach(store.tagClaims(state.id()).stream()
                                .filter(claim -> claim.text().equals(kept) != keeps))
                        .forEach(lifts::add);
            }
            if (lifts.isEmpty() && keeps && !loose && !state.tags().contains(kept)) {
                lifts.add(List.of());
            }
            for (List<String> some : lifts) {
                parcels.add(new Parcel(
                        EventDraft.settle(state.id(), keeps && !loose ? kept : null, some, why)
                                .sign(author, now),
                        null));
            }
        }
        if (parcels.isEmpty()) {
            throw Kind.ASKED_WRONG.problem(
                    "nothing about the tag " + kept + " is to be settled",
                    "the drive " + keeper.label() + " alone bears it, and no other",
                    "list the conflicts to see what is");
        }
        keep(parcels);
        return new Settled(keeper.id(), parcels.stream().map(Parcel::event).toList(), lost);
    }

    private void borne(String tag, DriveState keeper) {
        List<String> tags = roster.view().states().stream()
                .flatMap(state -> state.tags().stream())
                .distinct()
                .sorted()
                .toList();
        if (!tags.contains(tag)) {
            throw Kind.ASKED_WRONG.problem(
                    "nothing about the tag " + tag + " is to be settled",
                    "no drive bears it" + Closest.hint(tag, tags),
                    "settle a tag that a drive bears; to give the drive a new tag: tracksoak roster tag " + keeper.id()
                            + " " + tag);
        }
    }

    /** The drive that is meant: for a record without a tag of its own, that which the tag given to it names. */
    private DriveState bearer(DriveState named, String tag) {
        DriveIdentity identity = named.identity();
        if (!DriveId.isLoose(named.id())) {
            return named;
        }
        DriveState drive = identity == null || !named.tags().contains(tag)
                ? null
                : roster.view().state(DriveId.of(identity, tag, ""));
        if (drive == null) {
            throw Kind.ASKED_WRONG.problem(
                    "the tag " + tag + " cannot be settled for " + named.id(),
                    "that is a record by itself, and was not given this tag",
                    "give it the tag first: tracksoak roster tag " + named.id() + " " + tag);
        }
        return drive;
    }

    /** Whether this tag leads from a record without one to the drive. */
    private static boolean leads(DriveState record, String tag, DriveState drive) {
        DriveIdentity identity = record.identity();
        return identity != null && DriveId.of(identity, tag, "").equals(drive.id());
    }

    /** Makes another tester's key known. Compare its id with theirs first, by voice. One that was revoked stays revoked, and is refused. */
    public RosterEvent addKey(VerifyKey key, String name, String why) {
        if (store.keys().status(key.id()) == KeyRing.Status.REVOKED) {
            throw Kind.ASKED_WRONG.problem(
                    "the key " + key.id() + " cannot be made known",
                    "it was revoked, and a key once revoked stays so",
                    "have its owner move their key's file away, and add the new key that is made on their next use");
        }
        return act(EventDraft.addKey(key, named(name), why));
    }

    private static String named(String typed) {
        try {
            return TesterName.checked(typed);
        } catch (RecordException wrong) {
            throw new Problem(Kind.ASKED_WRONG, wrong.what(), wrong.which(), wrong.why(), wrong.todo(), wrong);
        }
    }

    /**
     * Revokes a key, for good: nothing signed with it gives trust any more; withdrawals and FAILs signed with it stay.
     *
     * @param keyId its id, or at least 6 characters of the beginning
     */
    public RosterEvent revokeKey(String keyId, String why) {
        List<CrewKeys.Entry> found = store.keys().entries().stream()
                .filter(entry -> keyId.length() >= 6 && entry.id().startsWith(keyId))
                .toList();
        if (found.size() != 1) {
            throw Kind.NOT_FOUND.problem(
                    "the key " + Inert.text(keyId) + " cannot be revoked",
                    found.isEmpty() ? "no key known begins like that" : found.size() + " keys begin like that",
                    "take its id from the list of keys");
        }
        CrewKeys.Entry entry = found.get(0);
        return act(EventDraft.revokeKey(new VerifyKey(entry.key()), entry.name(), why));
    }

    private RosterEvent act(EventDraft draft) {
        return last(List.of(), draft);
    }

    private RosterEvent last(List<Parcel> before, EventDraft draft) {
        RosterEvent event = draft.sign(author, clock.instant());
        List<Parcel> all = new ArrayList<>(before);
        all.add(new Parcel(event, null));
        keep(all);
        return event;
    }

    private void keep(List<Parcel> parcels) {
        KeyRing.Status status = store.keys().status(author.id());
        if (status == KeyRing.Status.REVOKED) {
            throw Kind.ASKED_WRONG.problem(
                    "nothing can be signed with the " + author,
                    "it was revoked",
                    "move its file away: a new key is made on the next use");
        }
        List<Intake.Checked> checked = new ArrayList<>();
        if (status == KeyRing.Status.UNKNOWN) {
            EventDraft own = EventDraft.addKey(author.verifyKey(), author.name(), "");
            checked.add(Intake.check(new Parcel(own.sign(author, clock.instant()), null)));
        }
        parcels.forEach(parcel -> checked.add(Intake.check(parcel)));
        roster.keep(checked);
    }
}
