package tracksoak.bench.simulated;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import org.junit.jupiter.api.Test;
import tracksoak.bench.drive.io.Drive.Presence;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.stream.BlockState;

/** What survives of a simulated drive that is pulled: the model stated in {@link SimulatedDrive#pluggedInAgain}. */
class PluggedInAgainTest {

    private static final int MB = 1 << 20;
    private static final ConstantRate PLAIN = new ConstantRate(MB, 2 * MB, 0);

    @Test
    void theCallUnderWayFailsAndAllLaterOnesUntilItIsBack() throws IOException {
        Rig rig = Rig.of(PLAIN);
        DriveFile file = rig.drive.create("a");
        rig.drive.pullAt(rig.clock.nanoTime() + 3 * Rig.SECOND);
        rig.fill(file, 0, 3 * MB, MB);
        assertThatThrownBy(() -> rig.write(file, 3 * MB, 0, 0, MB)).isInstanceOf(IOException.class);
        assertThat(rig.drive.presence()).isEqualTo(Presence.GONE);
        assertThatThrownBy(() -> rig.drive.open("a")).isInstanceOf(IOException.class);

        rig.drive.pluggedInAgain();

        assertThat(rig.drive.presence()).isEqualTo(Presence.PRESENT);
        DriveFile back = rig.drive.open("a");
        // 3 s at 1 MiB/s (arithmetic): the fourth chunk never arrived
        assertThat(back.size()).isEqualTo(3 * MB);
        assertThat(rig.check(back, 3 * MB / 4096 - 1, 0, 0)).isEqualTo(BlockState.GOOD);
    }

    @Test
    void aDriveWithAVolatileMemoryLosesTheNewestThatWaitedThereAndNoMore() throws IOException {
        Rig rig = Rig.of(PLAIN, new SerialFlush(0, MB, 2 * MB));
        DriveFile file = rig.drive.create("a");
        rig.fill(file, 0, 6 * MB, MB);

        rig.drive.pluggedInAgain();

        DriveFile back = rig.drive.open("a");
        // 6 MiB written, the memory holds 2, the oldest left it first: 4 are on the medium
        assertThat(back.size()).isEqualTo(4 * MB);
        assertThat(rig.check(back, 4 * MB / 4096 - 1, 0, 0)).isEqualTo(BlockState.GOOD);
    }

    @Test
    void whatWasFlushedIsKept() throws IOException {
        Rig rig = Rig.of(PLAIN, new SerialFlush(0, MB, 16 * MB));
        DriveFile file = rig.drive.create("a");
        rig.fill(file, 0, 3 * MB, MB);
        file.flush(false);
        rig.fill(file, 3 * MB, 2 * MB, MB);

        rig.drive.pluggedInAgain();

        assertThat(rig.drive.open("a").size()).isEqualTo(3 * MB);
    }

    @Test
    void whatWasLostAndIsWrittenAgainIsThere() throws IOException {
        Rig rig = Rig.of(PLAIN, new SerialFlush(0, MB, 16 * MB));
        DriveFile file = rig.drive.create("a");
        rig.fill(file, 0, 2 * MB, MB);
        rig.drive.pluggedInAgain();
        assertThat(rig.drive.open("a").size()).isZero();
        DriveFile fresh = rig.drive.create("b");
        rig.write(fresh, 0, 7, 1, MB);
        fresh.flush(true);
        assertThat(rig.check(fresh, 5, 7, 1)).isEqualTo(BlockState.GOOD);
    }

    @Test
    void aDriveThatFellOffTheBusStaysOnItTheSecondTime() throws IOException {
        Rig rig = Rig.of(PLAIN, new Removal(2 * MB, Long.MAX_VALUE));
        DriveFile file = rig.drive.create("a");
        assertThatThrownBy(() -> rig.fill(file, 0, 4 * MB, MB)).isInstanceOf(IOException.class);
        rig.drive.pluggedInAgain();
        DriveFile fresh = rig.drive.create("b");
        rig.write(fresh, 0, 0, 0, MB);
        assertThat(rig.drive.open("a").size()).isEqualTo(2 * MB);
    }
}
