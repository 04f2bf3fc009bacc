package tracksoak.bench.recorder.watch;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import tracksoak.profiles.base.VirtualClock;

class DeviceIdleTest {

    private static final long MS = 1_000_000;

    private final VirtualClock clock = new VirtualClock(0);
    private final long zero = clock.nanoTime();
    private long busyMs = 500;
    private final DeviceIdle idle = new DeviceIdle(clock, () -> busyMs);

    private void pass(long ms, long worked) {
        clock.advance(ms * MS);
        busyMs += worked;
    }

    private long idleMs(long from, long to) {
        return idle.idleNs(zero + from * MS, zero + to * MS) / MS;
    }

    @Test
    void whatTheDeviceDidNotWorkOfAnIntervalItWasIdle() {
        idle.sample();
        pass(100, 30);
        idle.sample();
        pass(900, 200);
        assertThat(idleMs(100, 1000)).isEqualTo(700);
        assertThat(idleMs(150, 1000)).as("its work may all lie inside").isEqualTo(650);
        assertThat(idleMs(50, 1000)).as("from the sample before").isEqualTo(720);
    }

    @Test
    void aDeviceThatWorkedAllTheTimeWasNeverIdle() {
        idle.sample();
        pass(3000, 3004);
        assertThat(idleMs(0, 3000)).isZero();
    }

    @Test
    void whatIsNotKnownIsNotIdle() {
        assertThat(idleMs(0, 1000)).as("no sample").isZero();
        idle.sample();
        pass(1000, -600);
        assertThat(idleMs(0, 1000)).as("another device's counter").isZero();
        busyMs = -1;
        idle.sample();
        assertThat(idleMs(0, 1000)).as("no counter").isZero();
    }

    /** A thread that is held up while it reads must not make the device look idle. */
    @Test
    void aSampleThatTookLongHidesNoWork() {
        boolean[] slow = {true};
        DeviceIdle late = new DeviceIdle(clock, () -> {
            long read = busyMs;
            if (slow[0]) {
                pass(300, 300);
            }
            return read;
        });
        late.sample();
        slow[0] = false;
        pass(1000, 1000);
        assertThat(late.idleNs(zero + 300 * MS, zero + 1300 * MS)).isZero();
    }

    /** Of an interval longer than what is kept, only what is kept counts. */
    @Test
    void onlyTheRecentPastIsKept() {
        for (int i = 0; i < 5000; i++) {
            idle.sample();
            pass(100, 0);
        }
        assertThat(idleMs(0, 500_000)).isBetween(409_000L, 409_700L);
    }
}
