package tracksoak.bench.recorder.watch;

import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.NanoClock;

/**
 * Knows which calls to the drive have not come back yet. Threads say when they enter and leave a call; a watchdog asks
 * for the oldest, without touching the drive or the thread: interrupting or closing would only hang the watchdog too.
 */
public final class CallWatch {

    private final NanoClock clock;
    private final List<Slot> slots = new CopyOnWriteArrayList<>();
    private final ThreadLocal<Slot> mine = ThreadLocal.withInitial(() -> {
        Slot slot = new Slot();
        slots.add(slot);
        return slot;
    });

    /** Watches by {@code clock}. */
    public CallWatch(NanoClock clock) {
        this.clock = clock;
    }

    /** The slot of the calling thread. */
    Slot slot() {
        return mine.get();
    }

    /** The call that has been out longest, or null if none is. */
    public @Nullable Call oldest() {
        Call oldest = null;
        for (Slot slot : slots) {
            long since = slot.sinceNs;
            String what = slot.what;
            if (what != null && (oldest == null || since - oldest.sinceNs() < 0)) {
                oldest = new Call(what, since);
            }
        }
        return oldest;
    }

    /**
     * A call that is out.
     *
     * @param what in words, for example {@code write to take-1-track-0001-part-001.soak}
     * @param sinceNs when it was made
     */
    public record Call(String what, long sinceNs) {}

    /** One thread's present call. */
    final class Slot {
        private volatile long sinceNs;
        private volatile @Nullable String what;

        void enter(String newWhat) {
            sinceNs = clock.nanoTime();
            what = newWhat;
        }

        void leave() {
            what = null;
        }
    }
}
