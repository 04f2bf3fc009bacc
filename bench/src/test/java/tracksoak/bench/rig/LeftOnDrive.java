package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.CRC32;
import tracksoak.bench.drive.folder.LeftOver;
import tracksoak.bench.drive.folder.Workspace;

/**
 * What lies on a drive once a run is over, against what docs/faults.md promises: nothing of the run, or its own folder and
 * no more. A file of somebody else's lies there from before, which no run may touch.
 */
final class LeftOnDrive {

    private static final Path THEIRS = Path.of("cue sheets", "second act.txt");

    private final Map<String, String> before;

    private LeftOnDrive(Map<String, String> before) {
        this.before = before;
    }

    /** Puts somebody's file on the drive, for good, and remembers all that lies there. */
    static LeftOnDrive before(Path mount) {
        Path file = mount.resolve(THEIRS);
        try {
            if (!Files.exists(file)) {
                Files.createDirectory(file.getParent());
                Files.writeString(
                        file, "the lamp goes out before the door opens\n".repeat(500), StandardCharsets.UTF_8);
                Host.run("sync", "-f", file.toString());
            }
        } catch (IOException e) {
            throw new UncheckedIOException("the rig's drive cannot be used", e);
        }
        return new LeftOnDrive(tree(mount, mount));
    }

    /**
     * The drive holds what it held before.
     *
     * @param others names that other programs gave their files meanwhile
     */
    void nothing(Path mount, String... others) {
        Path none = mount.resolve("none");
        Map<String, String> now = tree(mount, none);
        assertThat(now.keySet()).as("files of others").containsAll(Arrays.asList(others));
        now.keySet().removeAll(Arrays.asList(others));
        assertThat(now).as("on the drive after the run").isEqualTo(before);
    }

    /** The drive holds what it held before and the run's own folder, which can then be deleted as the program does. */
    void theFolder(Path mount, Workspace workspace) {
        Path folder = mount.resolve(String.valueOf(workspace.folder().getFileName()));
        assertThat(folder).isDirectory();
        assertThat(tree(mount, folder))
                .as("on the drive besides the run's folder")
                .isEqualTo(before);
        try {
            // refuses if anything lies in it that no run wrote
            workspace.movedTo(folder).remove();
        } catch (IOException refused) {
            throw new AssertionError("the run's folder cannot be cleared", refused);
        }
        nothing(mount);
    }

    /**
     * The same where a file stays as long as somebody has it open, which somebody has: the folder cannot go yet, and what
     * stays of it is a run's folder still.
     */
    void theFolderInUse(Path mount, Workspace workspace) {
        assertThat(tree(mount, workspace.folder()))
                .as("on the drive besides the run's folder")
                .isEqualTo(before);
        assertThatThrownBy(workspace::remove)
                .isInstanceOf(LeftOver.InUseException.class)
                .hasMessageContaining(workspace.folder().toString());
        assertThat(workspace.folder().resolve(".tracksoak-run")).exists();
        assertThat(tree(mount, workspace.folder())).isEqualTo(before);
    }

    /** Each file's size and checksum, each folder, by path; without what lies in {@code but}. */
    private static Map<String, String> tree(Path mount, Path but) {
        Map<String, String> found = new TreeMap<>();
        try (Stream<Path> all = Files.walk(mount)) {
            for (Path path : all.toList()) {
                if (!path.equals(mount) && (but.equals(mount) || !path.startsWith(but))) {
                    found.put(mount.relativize(path).toString(), what(path));
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException("cannot look at " + mount, e);
        }
        return found;
    }

    private static String what(Path path) throws IOException {
        if (!Files.isRegularFile(path, LinkOption.NOFOLLOW_LINKS)) {
            return "folder";
        }
        if (Files.size(path) > 1 << 20) {
            return Files.size(path) + " B";
        }
        CRC32 sum = new CRC32();
        sum.update(Files.readAllBytes(path));
        return Files.size(path) + " B, CRC-32 " + sum.getValue();
    }
}
