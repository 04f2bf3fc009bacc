package tracksoak.bench.simulated;

/** Stretches of time, one after the other, in which a drive works slower or not at all. */
abstract class Windows {

    private long startNs;
    private long endNs;

    /** Sets the first, or the next, stretch by {@link #set}; it must not begin before {@code afterNs}. */
    abstract void next(long afterNs);

    final void set(long newStartNs, long newEndNs) {
        startNs = newStartNs;
        endNs = newEndNs;
    }

    /**
     * How long a call made at {@code nowNs} takes that needs {@code workNs} at full speed.
     *
     * @param permille speed inside the stretches, 0 to 1000
     */
    final long stretched(long nowNs, long workNs, int permille) {
        long at = nowNs;
        long left = workNs;
        while (at - nowNs < Call.LONGEST_NS) {
            while (endNs <= at) {
                next(endNs);
            }
            if (at < startNs) {
                long room = startNs - at;
                if (left <= room) {
                    return at + left - nowNs;
                }
                left -= room;
                at = startNs;
            }
            long can = (endNs - at) * permille / 1000;
            if (permille > 0 && left <= can) {
                return at + left * 1000 / permille - nowNs;
            }
            left -= can;
            at = endNs;
        }
        return Call.LONGEST_NS;
    }

    /** Stretches of one length at one interval. */
    static Windows periodic(long firstNs, long everyNs, long lengthNs) {
        Windows windows = new Windows() {
            private long startNs = firstNs - everyNs;

            @Override
            void next(long afterNs) {
                startNs += everyNs;
                set(startNs, startNs + lengthNs);
            }
        };
        windows.next(0);
        return windows;
    }

    /** Lets a drive work at a part of its speed inside stretches of time. */
    static final class Slow implements Effect {

        private final Windows windows;
        private final int permille;
        private long pluggedAtNs = -1;

        Slow(Windows windows, int permille) {
            this.windows = windows;
            this.permille = permille;
        }

        @Override
        public void shape(Call call) {
            if (pluggedAtNs < 0) {
                pluggedAtNs = call.startNs() - call.idleNs();
            }
            call.take(windows.stretched(call.startNs() - pluggedAtNs, call.serviceNs(), permille));
        }
    }
}
