package tracksoak.bench.drive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import tracksoak.bench.drive.find.DriveFinder;
import tracksoak.bench.drive.folder.LeftOver;
import tracksoak.bench.drive.folder.Workspace;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.DriveContractTest;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.rig.LoopMount;
import tracksoak.bench.rig.NeedsRig;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.IoMode;

/** The contract where a program serves the file system, which keeps direct writes in memory. */
@NeedsRig
class ExfatDriveTest extends DriveContractTest {

    private static final int BYTES = 4 << 20;

    private final LoopMount loop = LoopMount.exfat(64);

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
    void writesReachTheDeviceAndReadsComeFromIt() throws IOException {
        try (Drive drive = RealDrive.open(loop.path().resolve("run"));
                DriveFile file = drive.create("a.soak")) {
            assertThat(drive.ioMode()).isEqualTo(IoMode.WRITE_THROUGH);
            ByteBuffer buffer = ByteBuffer.allocateDirect(BYTES);
            Drive.Counters before = drive.counters().orElseThrow();
            file.write(buffer, 0);
            Drive.Counters written = drive.counters().orElseThrow();
            assertThat(written.bytesWritten() - before.bytesWritten()).isGreaterThanOrEqualTo(BYTES);
            drive.forgetCached();
            buffer.clear();
            assertThat(file.read(buffer, 0)).isEqualTo(BYTES);
            Drive.Counters read = drive.counters().orElseThrow();
            assertThat(read.bytesRead() - written.bytesRead()).isGreaterThanOrEqualTo(BYTES);
        }
    }

    @Test
    void whatAProgramHasOpenKeepsItsFolderToBeFoundAgain() throws IOException {
        Workspace workspace = Workspace.create(
                loop.path(), "019390a8-2f00-7cc3-98c4-dc0c0c07398f", "2026-11-25T19:30:00Z", Path.of("record.json"));
        Path take = Files.writeString(workspace.folder().resolve("take-1-track-0001-part-001.soak"), "pattern");
        Files.writeString(workspace.folder().resolve("take-1-track-0002-part-001.soak"), "pattern");
        try (InputStream open = Files.newInputStream(take)) {
            assertThatThrownBy(workspace::remove)
                    .isInstanceOf(LeftOver.InUseException.class)
                    .hasMessageContaining(".fuse_hidden");
            assertThat(open.read()).isEqualTo('p');
            assertThat(LeftOver.under(loop.path(), true))
                    .as("its marker is still there")
                    .hasSize(1);
            assertThat(take).doesNotExist();
        }
        workspace.remove();
        assertThat(workspace.folder()).doesNotExist();
    }

    @Test
    void isKnownForExfatAlthoughTheSystemDoesNotSaySo() throws IOException {
        DriveFacts facts = new DriveFinder().at(loop.path()).facts();
        assertThat(facts.node()).isEqualTo(loop.node());
        assertThat(facts.fileSystem()).isEqualTo("exfat");
        assertThat(facts.clusterBytes()).isEqualTo(4096);
        assertThat(facts.freeBytes()).isPositive();
    }
}
