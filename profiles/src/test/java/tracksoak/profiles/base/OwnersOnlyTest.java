package tracksoak.profiles.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

@DisabledOnOs(OS.WINDOWS)
class OwnersOnlyTest {

    @TempDir
    Path folder;

    private static String rights(Path path) throws IOException {
        return PosixFilePermissions.toString(Files.getPosixFilePermissions(path));
    }

    private static Path open(Path path, String rights) throws IOException {
        return Files.setPosixFilePermissions(path, PosixFilePermissions.fromString(rights));
    }

    @Test
    void makesFoldersAndLocksForTheirOwnerAlone() throws IOException {
        Path lock = folder.resolve("state/turns/computer");
        try (FileChannel channel = OwnersOnly.lockFile(lock)) {
            assertThat(channel.tryLock()).isNotNull();
            assertThat(rights(lock)).isEqualTo("rw-------");
            assertThat(rights(folder.resolve("state/turns"))).isEqualTo("rwx------");
            assertThat(rights(folder.resolve("state"))).isEqualTo("rwx------");
        }
    }

    @Test
    void closesWhatEarlierVersionsLeftOpen() throws IOException {
        Path turns = open(Files.createDirectory(folder.resolve("turns")), "rwxr-xr-x");
        Path lock = open(Files.writeString(turns.resolve("computer"), "kept"), "rw-r--r--");
        OwnersOnly.lockFile(lock).close();
        assertThat(rights(turns)).isEqualTo("rwx------");
        assertThat(rights(lock)).isEqualTo("rw-------");
        assertThat(lock).hasContent("kept");
    }

    @Test
    void leavesWhatALinkLeadsToAndWhatIsNotThere() throws IOException {
        Path shared = open(Files.createDirectory(folder.resolve("shared")), "rwxr-xr-x");
        Path link = Files.createSymbolicLink(folder.resolve("link"), shared);
        OwnersOnly.close(link);
        assertThat(rights(shared)).isEqualTo("rwxr-xr-x");
        OwnersOnly.close(folder.resolve("none"));
        assertThat(folder.resolve("none")).doesNotExist();
    }

    /** A roster may lie in a folder that the crew shares. */
    @Test
    void closesAFileAndLeavesItsFolder() throws IOException {
        Path shared = open(Files.createDirectory(folder.resolve("shared")), "rwxr-xr-x");
        Path file = open(Files.createFile(shared.resolve("roster.db")), "rw-r--r--");
        OwnersOnly.file(file);
        assertThat(rights(file)).isEqualTo("rw-------");
        assertThat(rights(shared)).isEqualTo("rwxr-xr-x");
    }
}
