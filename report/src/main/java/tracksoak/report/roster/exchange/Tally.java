package tracksoak.report.roster.exchange;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Digests;
import tracksoak.report.roster.event.EventJson;
import tracksoak.report.roster.event.RecordRef;

/**
 * All that a roster holds, read from its first event to its last and hashed: every event's signature is verified, every record unpacked and its
 * SHA-256 compared with the one that was signed.
 *
 * @param events events that are whole
 * @param records of these, events that enter a record
 * @param sha256 SHA-256 over the events in order of name, each as its canonical JSON and a line feed; the records are in it by their own SHA-256
 * @param broken names of events that are not whole, at most {@value #MOST_NAMED}
 */
public record Tally(long events, long records, String sha256, List<String> broken) {

    /** Most names kept. */
    public static final int MOST_NAMED = 100;

    private static final int PAGE = 1_000;
    private static final int BATCH = 50;

    public Tally {
        broken = List.copyOf(broken);
    }

    /** Whether every event and record is as it was signed. */
    public boolean whole() {
        return broken.isEmpty();
    }

    /** Goes through a whole roster; holds a few records in memory at once. */
    public static Tally of(RosterPeer roster) {
        Tally tally = within(roster, roster);
        Set<String> broken = new LinkedHashSet<>(tally.broken);
        broken.addAll(roster.setAside());
        return new Tally(
                tally.events,
                tally.records,
                tally.sha256,
                broken.stream().limit(MOST_NAMED).toList());
    }

    /**
     * Goes through those events of one roster that another names: what it must hold after a move. Where it holds them all unchanged, both
     * tallies are equal.
     *
     * @param names where the names come from
     * @param roster where the events come from; one that is missing here is broken
     */
    public static Tally within(RosterPeer names, RosterPeer roster) {
        Counting counting = new Counting();
        RefCursor cursor = new RefCursor(names, PAGE);
        List<String> batch = new ArrayList<>();
        for (String ref = cursor.current(); ref != null; ref = cursor.current()) {
            batch.add(cursor.take());
            if (batch.size() >= BATCH || cursor.current() == null) {
                Map<String, Parcel> parcels = pull(roster, batch);
                batch.forEach(name -> counting.add(name, parcels.get(name)));
                batch.clear();
            }
        }
        return counting.tally();
    }

    private static Map<String, Parcel> pull(RosterPeer roster, List<String> refs) {
        Map<String, Parcel> parcels = new HashMap<>();
        List<String> left = new ArrayList<>(refs);
        while (!left.isEmpty()) {
            List<Parcel> got = roster.pull(left);
            got.forEach(parcel -> parcels.put(parcel.event().ref(), parcel));
            if (!left.removeAll(got.stream().map(parcel -> parcel.event().ref()).toList())) {
                break;
            }
        }
        return parcels;
    }

    private static final class Counting {

        private final MessageDigest digest = Digests.sha256();
        private final List<String> broken = new ArrayList<>();
        private long events;
        private long records;

        void add(String ref, @Nullable Parcel parcel) {
            if (parcel == null || !whole(parcel)) {
                if (broken.size() < MOST_NAMED) {
                    broken.add(ref);
                }
                return;
            }
            events++;
            records += parcel.gzip() == null ? 0 : 1;
            digest.update(EventJson.bytes(parcel.event()));
            digest.update("\n".getBytes(StandardCharsets.UTF_8));
        }

        private static boolean whole(Parcel parcel) {
            if (!parcel.event().holds()) {
                return false;
            }
            RecordRef record = parcel.event().record();
            Optional<String> kept = hash(parcel.gzip());
            return record == null ? parcel.gzip() == null : kept.equals(Optional.of(record.sha256()));
        }

        private static Optional<String> hash(byte @Nullable [] gzip) {
            try {
                return gzip == null ? Optional.empty() : Optional.of(Digests.sha256Hex(Intake.unpack(gzip)));
            } catch (IOException damaged) {
                return Optional.empty();
            }
        }

        Tally tally() {
            return new Tally(events, records, HexFormat.of().formatHex(digest.digest()), broken);
        }
    }
}
