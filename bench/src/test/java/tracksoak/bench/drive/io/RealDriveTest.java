package tracksoak.bench.drive.io;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.drive.BuildFolder;
import tracksoak.bench.drive.CapturedFiles;
import tracksoak.bench.drive.system.MountTable;

/** The contract on a folder of this machine, and what only a real drive has. */
class RealDriveTest extends DriveContractTest {

    @TempDir(factory = BuildFolder.class)
    Path folder;

    @Override
    protected Drive emptyDrive() throws IOException {
        return RealDrive.open(folder);
    }

    @Override
    protected void afterDrive() throws IOException {
        Path self = Path.of("/proc/self/fd");
        if (!Files.isDirectory(self)) {
            return;
        }
        try (Stream<Path> open = Files.list(self)) {
            assertThat(open.map(RealDriveTest::target).filter(target -> target.startsWith(folder.toString())))
                    .as("files left open")
                    .isEmpty();
        }
    }

    @Override
    protected boolean roomIsOurs() {
        return false;
    }

    @Test
    void leavesNoTrialFileBehind() throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            assertThat(files).isEmpty();
        }
    }

    @Test
    void neitherListsNorTouchesWhatIsNotItsOwn() throws IOException {
        Files.createDirectory(folder.resolve("sub"));
        Files.writeString(folder.resolve(".kept"), "kept");
        try (Drive drive = RealDrive.open(folder)) {
            assertThat(drive.list()).isEmpty();
            assertThatThrownBy(() -> drive.delete(".kept")).isInstanceOf(IOException.class);
            assertThat(folder.resolve(".kept")).hasContent("kept");
        }
    }

    @Test
    void followsNoLink() throws IOException {
        Path elsewhere = Files.writeString(folder.resolve(".elsewhere"), "precious");
        Path link = folder.resolve("a.soak");
        try {
            Files.createSymbolicLink(link, elsewhere);
        } catch (IOException | UnsupportedOperationException e) {
            Assumptions.abort("no links here: " + e);
        }
        try (Drive drive = RealDrive.open(folder)) {
            assertThatThrownBy(() -> drive.create("a.soak")).isInstanceOf(FileAlreadyExistsException.class);
            assertThatThrownBy(() -> drive.open("a.soak")).isInstanceOf(IOException.class);
            assertThat(drive.list()).isEmpty();
            drive.delete("a.soak");
        }
        assertThat(elsewhere).hasContent("precious");
    }

    @Test
    void saysWhatIsWrongWithAName() {
        assertThatThrownBy(() -> {
                    try (Drive drive = RealDrive.open(folder)) {
                        drive.create("../out.soak");
                    }
                })
                .hasMessageContaining("\"../out.soak\"")
                .hasMessageContaining("letters, digits");
    }

    @Test
    void writesThroughOnEveryFuseTypeWithoutTrying() throws IOException {
        for (String type : List.of("fuse", "fuseblk", "fuse.exfat", "fuseblk.exfat", "fuse.sshfs")) {
            CapturedFiles files =
                    new CapturedFiles().text(MountTable.FILE, "27 1 0:99 / / rw - " + type + " thing rw\n");
            try (Drive drive = RealDrive.open(folder, files)) {
                assertThat(drive.ioMode()).isEqualTo(tracksoak.report.record.facts.IoMode.WRITE_THROUGH);
                assertThat(drive.ioReason()).contains("(" + type + ")");
                assertThat(drive.alignmentBytes()).isEqualTo(4096);
                drive.create("through-" + type.replace('.', '-') + ".soak").close();
            }
        }
    }

    /** Counters that stand still say that a longer file was not written; a drive without counters says nothing. */
    @Test
    @EnabledOnOs(OS.LINUX)
    void spreadsProbesOnExfatWhereAFileGrowsWithoutBeingWritten() throws IOException {
        String node = "/sys/devices/usb2/2-1/block/sdb/sdb1";
        CapturedFiles files = new CapturedFiles()
                .text(MountTable.FILE, "70 1 8:17 / " + folder.toRealPath() + " rw - exfat /dev/sdb1 rw\n")
                .link("/sys/dev/block/8:17", node)
                .text(node + "/partition", "1\n");
        try (Drive drive = RealDrive.open(folder, files)) {
            assertThat(drive.spreading()).isEqualTo(Drive.Spreading.NONE);
            assertThat(drive.spreadingReason()).contains("on exFAT, as this computer's kernel has it,");
        }
        files.text("/sys/devices/usb2/2-1/block/sdb/stat", "1 0 8 1 1 0 8 1 0 2 2\n");
        try (Drive drive = RealDrive.open(folder, files)) {
            assertThat(drive.spreading()).isEqualTo(Drive.Spreading.IN_TURN_BY_LENGTH);
            assertThat(drive.spreadingReason()).isEmpty();
            assertThat(drive.list()).as("the trial is gone").isEmpty();
        }
    }

    @Test
    void saysWhenTheFolderIsNotThere() {
        assertThatThrownBy(() -> RealDrive.open(folder.resolve("none"))).isInstanceOf(IOException.class);
    }

    private static String target(Path descriptor) {
        try {
            return Files.readSymbolicLink(descriptor).toString();
        } catch (IOException e) {
            return "";
        }
    }
}
