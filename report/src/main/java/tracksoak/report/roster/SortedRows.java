package tracksoak.report.roster;

import java.time.Instant;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;

/** The rows of one version, per session asked about; of the sessions, those asked about last are kept. Any thread. */
final class SortedRows {

    private static final int MOST_SESSIONS = 32;

    private final RosterView view;
    private final Map<Key, Slot> slots = new LinkedHashMap<>(16, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<Key, Slot> eldest) {
            return size() > MOST_SESSIONS;
        }
    };

    /** No session: each drive has that of its latest record. By its name alone it is found soon, in a new process too. */
    private record Key(@Nullable Session session) {
        @Override
        public int hashCode() {
            return session == null ? 0 : session.name().hashCode();
        }

        @Override
        public boolean equals(@Nullable Object other) {
            return other instanceof Key key && Objects.equals(session, key.session);
        }
    }

    private static final class Slot {
        private volatile @Nullable SessionRows rows;

        @Nullable
        SessionRows at(Instant now) {
            SessionRows found = rows;
            return found != null && found.holds(now) ? found : null;
        }

        SessionRows at(Instant now, RosterView view, @Nullable Session session) {
            SessionRows found = at(now);
            if (found != null) {
                return found;
            }
            // one works them out, the others wait for it
            synchronized (this) {
                return Objects.requireNonNullElseGet(at(now), () -> {
                    SessionRows made = SessionRows.of(view.rows(session, now), now);
                    rows = made;
                    return made;
                });
            }
        }
    }

    SortedRows(RosterView view) {
        this.view = view;
    }

    SessionRows of(@Nullable Session session, Instant now) {
        Slot slot;
        synchronized (slots) {
            slot = slots.computeIfAbsent(new Key(session), key -> new Slot());
        }
        return slot.at(now, view, session);
    }

    /**
     * Takes over from an earlier version what is still so.
     *
     * @param before the drives that are other now, as they were
     * @param after those drives as they are, and new ones
     */
    void follow(SortedRows earlier, Collection<KnownDrive> before, Collection<KnownDrive> after, Instant now) {
        Map<Key, Slot> kept;
        synchronized (earlier.slots) {
            kept = new LinkedHashMap<>(earlier.slots);
        }
        kept.forEach((key, slot) -> {
            SessionRows old = slot.at(now);
            if (old != null) {
                Slot next = new Slot();
                next.rows = old.with(before, view.rows(after, key.session(), now), now);
                synchronized (slots) {
                    slots.put(key, next);
                }
            }
        });
    }
}
