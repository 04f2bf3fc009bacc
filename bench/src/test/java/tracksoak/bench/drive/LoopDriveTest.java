package tracksoak.bench.drive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import org.assertj.core.api.ThrowableAssert;
import org.junit.jupiter.api.Test;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.DriveContractTest;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.drive.io.FilesLeft;
import tracksoak.bench.drive.io.NoPlaceException;
import tracksoak.bench.drive.io.NoPlaceException.Lack;
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
    void tellsWhatIsLackingByTheSystemsNumber() throws IOException {
        try (LoopMount few = LoopMount.ext4(64, "-N", "64");
                RealDrive drive =
                        RealDrive.open(Files.createDirectory(few.path().resolve("run")))) {
            ByteBuffer block =
                    ByteBuffer.allocateDirect(8192).alignedSlice(4096).slice(0, 4096);
            try (DriveFile file = drive.create("long.soak")) {
                // ext4's files end at 16 TiB
                lacks(Lack.LENGTH, () -> file.write(block, 1L << 50));
            }
            Long left = FilesLeft.in(few.path(), "ext4");
            assertThat(left).isBetween(1L, 63L);
            for (long made = 0; made < left; made++) {
                drive.create("more-" + made + ".soak").close();
            }
            assertThat(FilesLeft.in(few.path(), "ext4")).isZero();
            assertThat(drive.usableBytes()).isGreaterThan(16L << 20);
            lacks(Lack.ROOM, () -> drive.create("one-more.soak"));
            // a trial that finds no place says nothing of how to write
            lacks(Lack.ROOM, () -> RealDrive.open(few.path()));
        }
    }

    private static void lacks(Lack lack, ThrowableAssert.ThrowingCallable call) {
        assertThatThrownBy(call)
                .isInstanceOfSatisfying(
                        NoPlaceException.class, full -> assertThat(full.lack()).isEqualTo(lack));
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
