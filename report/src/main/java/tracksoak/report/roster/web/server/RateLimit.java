package tracksoak.report.roster.web.server;

import java.time.InstantSource;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Buckets that fill steadily: each key may act as often as its bucket holds, then once per refill. Any thread. Remembers a
 * bounded number of keys; the one longest unused is forgotten first.
 */
final class RateLimit {

    private static final int MOST_KEYS = 10_000;
    private static final double MS_PER_S = 1_000;

    private final InstantSource clock;
    private final double perS;
    private final double most;
    private final Map<String, Bucket> buckets = new LinkedHashMap<>(64, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Bucket> eldest) {
            return size() > MOST_KEYS;
        }
    };

    private static final class Bucket {
        private double left;
        private long atMs;
    }

    /**
     * @param perS what comes back per s
     * @param most what a bucket holds
     */
    RateLimit(InstantSource clock, double perS, double most) {
        this.clock = clock;
        this.perS = perS;
        this.most = most;
    }

    /** Takes one; false where none is left. */
    synchronized boolean take(String key) {
        Bucket bucket = filled(key);
        if (bucket.left < 1) {
            return false;
        }
        bucket.left--;
        return true;
    }

    /** Whole s until the next one. */
    synchronized int waitS(String key) {
        return (int) Math.max(1, Math.ceil((1 - filled(key).left) / perS));
    }

    private Bucket filled(String key) {
        long nowMs = clock.millis();
        Bucket bucket = buckets.get(key);
        if (bucket == null) {
            bucket = new Bucket();
            bucket.left = most;
            buckets.put(key, bucket);
        } else {
            // a clock set back gives nothing and takes nothing
            bucket.left = Math.min(most, bucket.left + Math.max(0, nowMs - bucket.atMs) / MS_PER_S * perS);
        }
        bucket.atMs = nowMs;
        return bucket;
    }
}
