package tracksoak.bench.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tracksoak.bench.drive.find.HotplugSource;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.ReadyFacts;

/** Scripted mount tables on virtual time. */
class PlugWaitTest {

    private static final long S = 1_000_000_000L;
    private static final HotplugSource.Place SYSTEM = new HotplugSource.Place(1, Path.of("/"), Set.of("sda", "sda1"));
    private static final HotplugSource.Place STICK =
            new HotplugSource.Place(90, Path.of("/media/me/STICK"), Set.of("sdb", "sdb1"));

    private final VirtualClock clock = new VirtualClock(0);

    /** A computer on which things happen at set times, in s. */
    private final class Script implements HotplugSource {
        double diskAtS = 1e9;
        double partitionAtS = 1e9;
        double mountAtS = 1e9;
        double goneAtS = -1;
        boolean known = true;

        private boolean from(double s) {
            return clock.nanoTime() >= Math.round(s * S);
        }

        @Override
        public boolean known() {
            return known;
        }

        @Override
        public Set<String> devices() {
            Set<String> names = new HashSet<>(Set.of("sda", "sda1", "loop0"));
            if (from(diskAtS) || (goneAtS >= 0 && !from(goneAtS))) {
                names.add("sdb");
            }
            if (from(partitionAtS)) {
                names.add("sdb1");
            }
            return names;
        }

        @Override
        public List<Place> places() {
            return from(mountAtS) ? List.of(SYSTEM, STICK) : List.of(SYSTEM);
        }
    }

    private PlugWait.@Nullable Came await(Script script, @Nullable String path, double limitS) {
        return new PlugWait(script, clock, clock, () -> false).await(path == null ? null : Path.of(path), limitS);
    }

    private static Script plugged(Script script) {
        script.diskAtS = 7;
        script.partitionAtS = 7.5;
        script.mountAtS = 11;
        return script;
    }

    @Test
    void theTimeCountsFromTheDeviceNotFromTheMount() {
        PlugWait.Came came = Objects.requireNonNull(await(plugged(new Script()), "/media/me/STICK/takes", 60));
        assertThat(came.path()).isEqualTo(Path.of("/media/me/STICK/takes"));
        clock.advance(2 * S);
        ReadyFacts ready = came.ready(clock.nanoTime());
        // 7 s of waiting, 4 s to the mount, 2 s to the first file; looked at every 0.1 s
        assertThat(ready.appearedS()).isCloseTo(7, within(0.1));
        assertThat(ready.mountedS()).isCloseTo(4, within(0.1));
        assertThat(ready.usableS()).isCloseTo(6, within(0.1));
        assertThat(ready.deviceSeen()).isTrue();
    }

    @Test
    void withoutAPathTheNextDriveIsTaken() {
        assertThat(Objects.requireNonNull(await(plugged(new Script()), null, 60))
                        .path())
                .isEqualTo(STICK.point());
    }

    /** A drive that was plugged in before is only seen to be mounted, and the record says so. */
    @Test
    void aDriveAlreadyPluggedInIsTimedFromTheMountAndSaysSo() {
        Script script = new Script();
        script.diskAtS = -1;
        script.mountAtS = 3;
        ReadyFacts ready = Objects.requireNonNull(await(script, null, 60)).ready(clock.nanoTime());
        assertThat(ready.deviceSeen()).isFalse();
        assertThat(ready.mountedS()).isZero();
        assertThat(ready.appearedS()).isCloseTo(3, within(0.1));
    }

    @Test
    void aDevicePulledAndPluggedInAgainCountsFromTheSecondTime() {
        Script script = plugged(new Script());
        script.goneAtS = 2;
        assertThat(Objects.requireNonNull(await(script, null, 60))
                        .ready(clock.nanoTime())
                        .appearedS())
                .isCloseTo(7, within(0.1));
    }

    @Test
    void itGivesUpWithWhatItSaw() {
        Script script = new Script();
        assertThatThrownBy(() -> await(script, null, 30))
                .isInstanceOf(Problem.class)
                .hasMessage("no drive was plugged in and mounted within 30 s; try another port or cable, and again");
        assertThat(clock.nanoTime()).isBetween(30 * S, 31 * S);
        script.diskAtS = 40;
        assertThatThrownBy(() -> await(script, null, 30)).hasMessageContaining("though sdb came");
    }

    @Test
    void aDriveThatIsThereCannotBeTimed() {
        Script script = new Script();
        script.mountAtS = 0;
        assertThatThrownBy(() -> await(script, "/media/me/STICK", 30))
                .isInstanceOf(Problem.class)
                .hasMessageContaining("is mounted at", "already");
        script.known = false;
        assertThatThrownBy(() -> await(script, null, 30)).hasMessageContaining("does not tell");
    }

    @Test
    void aPersonMayGiveUp() {
        Script script = new Script();
        PlugWait wait = new PlugWait(script, clock, clock, () -> clock.nanoTime() > 5 * S);
        assertThat(wait.await(null, 60)).isNull();
        assertThat(clock.nanoTime()).isBetween(5 * S, 6 * S);
    }
}
