package tracksoak.report.roster.standing;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.sign.KeyRing;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.event.EventKind;
import tracksoak.report.roster.event.KeyRef;
import tracksoak.report.roster.event.RosterEvent;

/**
 * The testers' keys: known once an event makes it so, revoked for good once a known key says so. Which of the two came first plays no
 * part, for no clock can be trusted with it. A revocation counts whose author's key is known or was: else revoking a tester would bring
 * back the keys that they revoked. So two keys that revoke each other are both revoked, and whoever holds a revoked key can
 * still take trust away with it, and never give any. Immutable.
 */
public final class CrewKeys implements KeyRing {

    /**
     * A key and what is known of it.
     *
     * @param id id of the key
     * @param key public key, 43 characters of base64url
     * @param name the tester
     * @param addedMs when it was made known, in ms since 1970
     * @param addedBy who made it known
     * @param revokedMs when it was revoked, null where it was not
     * @param revokedBy who revoked it, empty where nobody did
     * @param revokedWhy why, empty where it was not
     */
    public record Entry(
            String id,
            String key,
            String name,
            long addedMs,
            String addedBy,
            @Nullable Long revokedMs,
            String revokedBy,
            String revokedWhy) {}

    private final Map<String, Entry> entries;

    private CrewKeys(Map<String, Entry> entries) {
        this.entries = entries;
    }

    /** The book that these events make; others than those about keys are passed over. */
    public static CrewKeys of(Collection<KnownEvent> events) {
        Comparator<KnownEvent> byRef = Comparator.comparing(KnownEvent::ref);
        List<KnownEvent> sorted = events.stream().sorted(byRef).toList();
        Map<String, Entry> entries = new TreeMap<>();
        Map<String, Entry> own = new TreeMap<>();
        for (KnownEvent known : sorted) {
            KeyRef subject = known.event().subject();
            if (known.event().kind() == EventKind.KEY_ADDED && subject != null) {
                entries.putIfAbsent(new VerifyKey(subject.key()).id(), added(known.event(), subject));
            }
        }
        for (KnownEvent known : sorted) {
            KeyRef subject = known.event().subject();
            if (known.event().kind() == EventKind.KEY_ADDED
                    && subject != null
                    && subject.key().equals(known.event().key())) {
                own.putIfAbsent(known.event().keyId(), added(known.event(), subject));
            }
        }
        // what the owner says of a key comes before what others say of it
        entries.putAll(own);
        Map<String, Entry> known = Map.copyOf(entries);
        for (KnownEvent revoking : sorted) {
            KeyRef subject = revoking.event().subject();
            if (revoking.event().kind() == EventKind.KEY_REVOKED
                    && subject != null
                    && known.containsKey(revoking.event().keyId())) {
                entries.computeIfPresent(
                        new VerifyKey(subject.key()).id(),
                        (id, entry) -> entry.revokedMs() == null ? revoked(entry, revoking.event()) : entry);
            }
        }
        return new CrewKeys(entries);
    }

    private static Entry added(RosterEvent event, KeyRef subject) {
        String id = new VerifyKey(subject.key()).id();
        return new Entry(id, subject.key(), subject.name(), event.at().toEpochMilli(), event.by(), null, "", "");
    }

    private static Entry revoked(Entry entry, RosterEvent event) {
        return new Entry(
                entry.id(),
                entry.key(),
                entry.name(),
                entry.addedMs(),
                entry.addedBy(),
                event.at().toEpochMilli(),
                event.by(),
                event.why());
    }

    @Override
    public Status status(String keyId) {
        Entry entry = entries.get(keyId);
        if (entry == null) {
            return Status.UNKNOWN;
        }
        return entry.revokedMs() == null ? Status.KNOWN : Status.REVOKED;
    }

    /** All keys made known, by id. */
    public List<Entry> entries() {
        return List.copyOf(entries.values());
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof CrewKeys book && entries.equals(book.entries);
    }

    @Override
    public int hashCode() {
        return entries.hashCode();
    }
}
