package tracksoak.report.roster;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.event.EventDraft;
import tracksoak.report.roster.event.EventName;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.identity.DriveId;
import tracksoak.report.roster.identity.DriveIdentity;

/**
 * Sets of events by people who mean harm and sign well: records entered again without their signature or under other tags, tags that clash, old
 * names, keys that revoke each other, clocks that are wrong. Tests only; one thread.
 */
public final class Mischief {

    static final Session BARN = RunSketch.session("barn-32", 32);
    static final Session TRIO = RunSketch.session("trio-8", 8);
    private static final int RECORDS = 48;

    /** The last of them is in nobody's list of keys. */
    private final List<TesterKey> people =
            Stream.of("Ada", "Bea", "Cleo", "Dan", "Eve").map(TesterKey::create).toList();

    private final Instant start;
    private final List<SignedRecord> records = new ArrayList<>();
    private final Map<String, byte[]> bytes = new HashMap<>();
    private final Map<String, byte[]> packed = new HashMap<>();

    /** @param start the day around which clocks and runs are; the latest runs end 40 days after */
    public Mischief(Instant start, Random random) {
        this.start = start;
        for (int i = 0; i < RECORDS; i++) {
            String serial = List.of("B4RN-0001", "B4RN-0002", "00000000").get(random.nextInt(3));
            Instant ended = start.plus(Duration.ofHours(random.nextInt(24 * 60) - 24 * 20L));
            Shows show = random.nextInt(3) == 0 ? Shows.fail(serial, ended) : Shows.pass(serial, ended);
            Session session = random.nextBoolean() ? BARN : TRIO;
            show.session(valid(session, random.nextInt(4) == 0 ? "fair" : session.name(), 10 + 40 * random.nextInt(3)));
            if (random.nextInt(8) == 0) {
                show.sketch.ioMode = IoMode.SIMULATED;
            }
            SignedRecord record = show.signed(people.get(random.nextInt(people.size())));
            records.add(record);
            bytes.put(record.sha256(), record.canonical());
            packed.put(record.sha256(), Intake.pack(record.canonical()));
        }
    }

    /** A record's canonical JSON. */
    byte[] canonical(String sha256) {
        return Objects.requireNonNull(bytes.get(sha256));
    }

    /** So many events, some of them by those whom nobody knows. */
    public List<Parcel> events(int count, Random random) {
        List<Parcel> events = new ArrayList<>();
        for (TesterKey key : people.subList(0, people.size() - 1)) {
            if (random.nextInt(6) > 0) {
                add(events, EventDraft.addKey(key.verifyKey(), key.name(), ""), key, random);
            }
        }
        while (events.size() < count) {
            act(events, people.get(random.nextInt(people.size())), random);
        }
        return events;
    }

    private void act(List<Parcel> events, TesterKey author, Random random) {
        TesterKey other = people.get(random.nextInt(people.size()));
        String tag = "S-00" + random.nextInt(3);
        String drive = drive(events, random);
        switch (random.nextInt(12)) {
            case 0, 1, 2, 3, 4 -> enter(events, author, random);
            case 5 -> add(events, EventDraft.tag(drive, identity(events, drive, tag), tag, "label"), author, random);
            case 6 ->
                add(
                        events,
                        EventDraft.note(
                                drive, (random.nextInt(4) == 0 ? "odd \u0000~0" : "note ") + random.nextInt(100)),
                        author,
                        random);
            case 7, 8 -> add(events, EventDraft.withdraw(drive, "loan " + random.nextInt(100)), author, random);
            case 9 -> add(events, EventDraft.restore(drive, names(events, random), "back"), author, random);
            case 10 ->
                add(
                        events,
                        EventDraft.settle(drive, random.nextBoolean() ? tag : null, names(events, random), "looked"),
                        author,
                        random);
            default ->
                add(
                        events,
                        random.nextInt(3) == 0
                                ? EventDraft.addKey(other.verifyKey(), author.name() + " says", "")
                                : EventDraft.revokeKey(other.verifyKey(), other.name(), "stolen"),
                        author,
                        random);
        }
    }

    /** Whoever has a record can enter it again: under another tag, and with another signature or none. */
    private void enter(List<Parcel> events, TesterKey author, Random random) {
        SignedRecord record = records.get(random.nextInt(RECORDS));
        if (random.nextInt(4) == 0) {
            byte[] signature = random.nextBoolean() ? new byte[0] : author.sign(new byte[] {1});
            TesterKey claimed = people.get(random.nextInt(people.size()));
            record = SignedRecord.kept(record.canonical(), claimed.name(), claimed.verifyKey(), signature);
        }
        String tag = random.nextInt(3) == 0 ? null : "S-00" + random.nextInt(3);
        RosterEvent event = EventDraft.record(record, tag).sign(author, clock(random));
        events.add(new Parcel(event, packed.get(record.sha256())));
    }

    private void add(List<Parcel> events, EventDraft draft, TesterKey author, Random random) {
        events.add(new Parcel(draft.sign(author, clock(random)), null));
    }

    /** Everybody's clock is wrong in its own way. */
    private Instant clock(Random random) {
        return start.plusSeconds(random.nextInt(200 * 86_400) - 100 * 86_400L);
    }

    private static String drive(List<Parcel> events, Random random) {
        List<String> drives = events.stream()
                .map(parcel -> parcel.event().drive())
                .filter(id -> id != null)
                .map(String::valueOf)
                .toList();
        return drives.isEmpty() ? "d-00000000000000000000" : drives.get(random.nextInt(drives.size()));
    }

    /** The hardware, where the event may name it: what an event says of hardware must lead to its drive. */
    private static @Nullable DriveIdentity identity(List<Parcel> events, String drive, String tag) {
        return events.stream()
                .filter(parcel ->
                        drive.equals(parcel.event().drive()) && parcel.event().record() != null)
                .map(parcel -> parcel.event().identity())
                .filter(identity -> identity != null
                        && (DriveId.isLoose(drive)
                                || DriveId.of(identity, tag, "").equals(drive)))
                .findFirst()
                .orElse(null);
    }

    private static List<String> names(List<Parcel> events, Random random) {
        List<String> names = new ArrayList<>();
        do {
            String name = events.get(random.nextInt(events.size())).event().ref();
            names.add(random.nextInt(4) == 0 ? EventName.old(name) : name);
        } while (random.nextBoolean());
        return names;
    }

    private static Session valid(Session session, String name, int days) {
        return session.but().name(name).validDays(days).build();
    }
}
