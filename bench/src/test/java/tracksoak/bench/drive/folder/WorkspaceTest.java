package tracksoak.bench.drive.folder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.drive.BuildFolder;
import tracksoak.bench.drive.folder.LeftOver.NotOursException;
import tracksoak.bench.drive.folder.RunLock.DriveInUseException;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.RealDrive;

class WorkspaceTest {

    private static final String RUN = "019390a8-2f00-7cc3-98c4-dc0c0c07398f";
    private static final String STARTED = "2026-11-25T19:30:00Z";
    private static final long SEED = 7;

    @TempDir(factory = BuildFolder.class)
    Path drive;

    @TempDir
    Path host;

    private Workspace create() throws IOException {
        return Workspace.create(drive, RUN, STARTED, host.resolve("record.json"));
    }

    /** A folder as a run leaves it that was killed: its process is no more. */
    private Path killed() throws IOException {
        Path folder = create().folder();
        Files.writeString(folder.resolve("take-1-track-0001-part-001.soak"), "pattern");
        Path marker = folder.resolve(".tracksoak-run");
        Files.writeString(marker, Files.readString(marker).replaceAll("(?m)^pid-started=.*$", "pid-started=1"));
        return folder;
    }

    private void clear(LeftOver leftOver) throws IOException {
        try (RunLock lock = RunLock.take(host, "disk-8-16", "run-b")) {
            leftOver.clear(lock);
        }
    }

    /** Longer than what is shown of it, or with letters that do not show: the folder is still known as the run's own. */
    @Test
    void whateverTheRecordIsCalledTheFolderGoes() throws IOException {
        for (String name :
                new String[] {"x".repeat(400), "a\u001b[31m\nrun=1", "cafe\u0301\u00a0\u202e", "e" + "\u0301".repeat(90)
                }) {
            Workspace workspace = Workspace.create(drive, RUN, STARTED, Path.of("/records", name));
            workspace.remove();
            assertThat(drive).as("left for %s", name).isEmptyDirectory();
        }
    }

    @Test
    void makesAFolderOfItsOwnAndTakesItAwayAgain() throws IOException {
        Files.writeString(drive.resolve("show.wav"), "precious");
        Workspace workspace = create();
        assertThat(workspace.folder())
                .isEqualTo(drive.resolve("TRACKSOAK-0c07398f"))
                .isDirectory();
        try (Drive real = RealDrive.open(workspace.folder())) {
            assertThat(real.list()).as("the marker is no file of the run's").isEmpty();
            real.create("take-1-track-0001-part-001.soak").close();
        }
        workspace.remove();
        assertThat(drive).isDirectoryNotContaining("glob:**TRACKSOAK*");
        assertThat(drive.resolve("show.wav")).hasContent("precious");
    }

    @Test
    void takesNoFolderThatIsThere() throws IOException {
        Files.createDirectory(drive.resolve("TRACKSOAK-0c07398f"));
        assertThatThrownBy(this::create).isInstanceOf(FileAlreadyExistsException.class);
        assertThat(drive.resolve("TRACKSOAK-0c07398f")).isEmptyDirectory();
    }

    @Test
    void refusesWhileAnotherRunIsAliveHere() throws IOException {
        create();
        assertThat(Workspace.leftOvers(drive)).as("it is alive: this process").isEmpty();
        assertThatThrownBy(() -> Workspace.create(
                        drive, "019390a8-2f00-7cc3-98c4-aaaaaaaaaaaa", STARTED, host.resolve("record.json")))
                .isInstanceOf(DriveInUseException.class)
                .hasMessageContaining(RUN);
    }

    @Test
    void findsAndClearsWhatAKilledRunLeft() throws IOException {
        Path folder = killed();
        Files.writeString(folder.resolve("._take-1-track-0001-part-001.soak"), "beside it");
        // hidden_name() in libfuse's fuse.c: ".fuse_hidden%08x%08x"
        Files.writeString(folder.resolve(".fuse_hidden0000000700000001"), "deleted before, under another name");
        LeftOver leftOver = Workspace.leftOvers(drive).get(0);
        assertThat(leftOver.folder()).isEqualTo(folder);
        assertThat(leftOver.runId()).isEqualTo(RUN);
        assertThat(leftOver.startedAt()).isEqualTo(STARTED);
        assertThat(leftOver.record()).endsWith("record.json");
        assertThat(leftOver.bytes()).isGreaterThan("pattern".length());
        clear(leftOver);
        assertThat(drive).isEmptyDirectory();
        assertThat(Workspace.leftOvers(drive)).isEmpty();
    }

    /** As the blocks laid over the free room are. */
    @Test
    @EnabledOnOs(OS.LINUX)
    void aFileWithHolesCountsWithTheRoomItTakes() throws IOException {
        Path folder = killed();
        long before = Workspace.leftOvers(drive).get(0).bytes();
        try (FileChannel file = FileChannel.open(
                folder.resolve("probes.soak"), StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
            file.write(ByteBuffer.allocate(4096), 1L << 30);
        }
        assertThat(Workspace.leftOvers(drive).get(0).bytes() - before).isBetween(4096L, 1L << 20);
    }

    @Test
    void clearsNothingIfAnythingElseLiesThere() throws IOException {
        for (String foreign :
                new String[] {"show.wav", "TAKE.SOAK", "a.soak.wav", ".hidden", ".fuse_hidden7", "x.soak/"}) {
            Path folder = killed();
            Path other = folder.resolve(foreign);
            if (foreign.endsWith("/")) {
                Files.createDirectory(other);
            } else {
                Files.writeString(other, "precious");
            }
            LeftOver leftOver = Workspace.leftOvers(drive).get(0);
            assertThatThrownBy(() -> clear(leftOver))
                    .as(foreign)
                    .isInstanceOf(NotOursException.class)
                    .hasMessageContaining("by hand");
            assertThat(folder.resolve("take-1-track-0001-part-001.soak"))
                    .as("all of it stays")
                    .exists();
            Files.delete(other);
            clear(leftOver);
        }
    }

    @Test
    void followsNoLink() throws IOException {
        Path precious = Files.writeString(host.resolve("precious"), "precious");
        Path folder = killed();
        try {
            Files.createSymbolicLink(folder.resolve("take-2.soak"), precious);
        } catch (IOException | UnsupportedOperationException e) {
            Assumptions.abort("no links here: " + e);
        }
        LeftOver leftOver = Workspace.leftOvers(drive).get(0);
        assertThatThrownBy(() -> clear(leftOver)).isInstanceOf(NotOursException.class);
        assertThat(precious).hasContent("precious");
        Files.delete(folder.resolve("take-2.soak"));

        Path moved = host.resolve("TRACKSOAK-0c07398f");
        copy(folder, moved);
        clear(leftOver);
        Files.createSymbolicLink(drive.resolve("TRACKSOAK-0c07398f"), moved);
        assertThat(Workspace.leftOvers(drive))
                .as("a link to a run's folder is none")
                .isEmpty();
        assertThatThrownBy(() -> clear(leftOver)).isInstanceOf(NotOursException.class);
        assertThat(moved.resolve("take-1-track-0001-part-001.soak")).exists();
    }

    @Test
    void doesNotClearWithoutTheLock() throws IOException {
        killed();
        LeftOver leftOver = Workspace.leftOvers(drive).get(0);
        RunLock lock = RunLock.take(host, "disk-8-16", "run-b");
        lock.close();
        assertThatThrownBy(() -> leftOver.clear(lock)).isInstanceOf(IllegalStateException.class);
        assertThat(leftOver.folder()).isDirectory();
    }

    @Test
    void takesNothingForALeftOverThatIsNotMarkedSo() throws IOException {
        Files.createDirectory(drive.resolve("TRACKSOAK-12345678"));
        Files.writeString(drive.resolve("TRACKSOAK-87654321"), "a file");
        Path folder = killed();
        Path marker = folder.resolve(".tracksoak-run");
        String good = Files.readString(marker);
        System.out.println("seed " + SEED);
        Random random = new Random(SEED);
        for (int round = 0; round < 300; round++) {
            String bad = random.nextBoolean()
                    ? good.substring(0, random.nextInt(good.indexOf("record=")))
                    : good.replaceFirst("run=.*", "run=../../" + random.nextInt());
            Files.writeString(marker, bad);
            for (LeftOver found : Workspace.leftOvers(drive)) {
                assertThat(found.runId()).isEqualTo(RUN);
                assertThat(found.folder()).isEqualTo(folder);
            }
        }
        Files.writeString(marker, good.replace("07398f", "07398a"));
        assertThat(Workspace.leftOvers(drive)).as("marker of another folder").isEmpty();
        Files.writeString(marker, good + "x".repeat(5000));
        assertThat(Workspace.leftOvers(drive)).as("too long").isEmpty();
    }

    @Test
    void makesNothingWhereItCannot() {
        assertThatThrownBy(() -> Workspace.create(drive.resolve("none"), RUN, STARTED, host))
                .isInstanceOf(IOException.class);
        assertThatThrownBy(() -> Workspace.create(drive, "../../etc", STARTED, host))
                .isInstanceOf(IllegalArgumentException.class);
        assertThat(drive).isEmptyDirectory();
    }

    private static void copy(Path from, Path to) throws IOException {
        Files.createDirectory(to);
        try (Stream<Path> files = Files.list(from)) {
            for (Path file : files.toList()) {
                Files.copy(file, to.resolve(String.valueOf(file.getFileName())));
            }
        }
    }
}
