package tracksoak.bench.drive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import org.junit.jupiter.api.Test;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.DriveContractTest;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.rig.LoopMount;
import tracksoak.bench.rig.NeedsRig;
import tracksoak.report.record.facts.IoMode;

/** The contract on a file system of its own, where the device's counters and its state can be told. */
@NeedsRig
class LoopDriveTest extends DriveContractTest {

    private final LoopMount loop = LoopMount.ext4(64);

    @Override
    protected Drive emptyDrive() throws IOException {
        return RealDrive.open(Files.createDirectory(loop.path().resolve("run")));
    }

    @Override
    protected void afterDrive() {
        // unmounting fails if a file was left open
        loop.close();
    }

    @Test
    void bytesHaveReachedTheDeviceWhenTheWriteReturns() throws IOException {
        int bytes = 4 << 20;
        try (Drive drive = RealDrive.open(loop.path().resolve("run"));
                DriveFile file = drive.create("a.soak")) {
            assertThat(drive.ioMode()).isEqualTo(IoMode.DIRECT);
            ByteBuffer buffer = ByteBuffer.allocateDirect(bytes + 4096).alignedSlice(4096);
            buffer.limit(bytes);
            Drive.Counters before = drive.counters().orElseThrow();
            file.write(buffer, 0);
            Drive.Counters written = drive.counters().orElseThrow();
            buffer.clear().limit(bytes);
            assertThat(file.read(buffer, 0)).isEqualTo(bytes);
            Drive.Counters read = drive.counters().orElseThrow();
            assertThat(written.bytesWritten() - before.bytesWritten()).isBetween((long) bytes, bytes * 11L / 10);
            assertThat(read.bytesRead() - written.bytesRead()).isBetween((long) bytes, bytes * 11L / 10);
        }
    }

    @Test
    void seesThatTheMountTurnedReadOnly() throws IOException {
        try (Drive drive = RealDrive.open(loop.path().resolve("run"))) {
            assertThat(drive.presence()).isEqualTo(Drive.Presence.PRESENT);
            loop.refuseWrites();
            assertThat(drive.presence()).isEqualTo(Drive.Presence.READ_ONLY);
            assertThatThrownBy(() -> drive.create("a.soak")).isInstanceOf(IOException.class);
        }
    }

    @Test
    void seesThatTheDeviceIsGone() throws IOException {
        try (Drive drive = RealDrive.open(loop.path().resolve("run"))) {
            loop.unmount();
            assertThat(drive.presence()).as("not mounted, device still there").isEqualTo(Drive.Presence.UNKNOWN);
            loop.detach();
            assertThat(drive.presence()).isEqualTo(Drive.Presence.GONE);
        }
    }
}
