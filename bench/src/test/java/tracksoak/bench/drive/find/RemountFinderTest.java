package tracksoak.bench.drive.find;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.drive.CapturedFiles;
import tracksoak.bench.drive.folder.RunMarker;
import tracksoak.bench.drive.system.MountTable;

/** The mount table and the devices are captured text; the folders they speak of are real ones. */
class RemountFinderTest {

    private static final String RUN = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f";
    private static final String NAME = RunMarker.folderName(RUN);
    private static final String SDB = "/sys/devices/usb1/block/sdb";
    private static final String SDC = "/sys/devices/usb2/block/sdc";

    @TempDir
    Path folder;

    private Path before;
    private Path after;
    private final CapturedFiles files = new CapturedFiles();

    @BeforeEach
    void plugIn() throws IOException {
        folder = folder.toRealPath();
        before = Files.createDirectories(folder.resolve("before/shows/" + NAME));
        after = folder.resolve("after/shows/" + NAME);
        files.link("/sys/dev/block/8:17", SDB + "/sdb1")
                .text(SDB + "/sdb1/partition", "1\n")
                .text(SDB + "/size", "120164352\n");
        mounts(before("70"));
    }

    private String before(String id) {
        return id + " 1 8:17 / " + folder.resolve("before") + " rw - exfat /dev/sdb1 rw\n";
    }

    private String after(String id, String options) {
        return id + " 1 8:33 / " + folder.resolve("after") + " rw - exfat /dev/sdc1 " + options + "\n";
    }

    private void mounts(String table) {
        files.text(MountTable.FILE, table);
    }

    private void pluggedInAsSdc() {
        files.link("/sys/dev/block/8:33", SDC + "/sdc1")
                .text(SDC + "/sdc1/partition", "1\n")
                .text(SDC + "/size", "120164352\n");
    }

    private void marker(Path where) throws IOException {
        Files.writeString(
                where.resolve(RunMarker.NAME), new RunMarker(RUN, "2026-01-31T20:15:00Z", 1, 0, "there").text());
    }

    @Test
    void theMountTheRunWroteThroughIsNeverTakenForTheDrivesReturn() throws IOException {
        marker(before);
        RemountFinder finder = RemountFinder.of(before, RUN, files);
        assertThat(finder.look()).isEmpty();
        files.text(SDB + "/size", "0\n");
        assertThat(finder.look()).as("pulled, its mount still in the table").isEmpty();
        files.without(SDB);
        assertThat(finder.look()).as("its node gone").isEmpty();
    }

    @Test
    void isFoundUnderAnotherNameAtAnotherPlace() throws IOException {
        RemountFinder finder = RemountFinder.of(before, RUN, files);
        files.without(SDB);
        pluggedInAsSdc();
        mounts(before("70") + after("71", "ro"));
        assertThat(finder.look()).as("nothing there yet").isEmpty();
        Files.createDirectories(after);
        marker(after);
        assertThat(finder.look())
                .contains(new RemountFinder.Found(
                        after, "sdc1", folder.resolve("after").toString(), true, true));
    }

    @Test
    void isFoundWhereTheKernelGaveTheOldMountsNumberToTheNewOne() throws IOException {
        RemountFinder finder = RemountFinder.of(before, RUN, files);
        pluggedInAsSdc();
        Files.createDirectories(after);
        mounts(after("70", "rw"));
        assertThat(finder.look()).isPresent();
    }

    @Test
    void isFoundAtTheSamePlaceOnceTheOldMountWasGone() throws IOException {
        marker(before);
        RemountFinder finder = RemountFinder.of(before, RUN, files);
        mounts("1 0 8:1 / / rw - ext4 /dev/sda1 rw\n");
        assertThat(finder.look()).isEmpty();
        mounts(before("70"));
        assertThat(finder.look()).as("the kernel gives numbers out again").isPresent();
    }

    /** One that was mounted before is not even looked into, as it may hang. */
    @Test
    void isNotLookedForWhereSomethingElseWasMountedBefore() throws IOException {
        pluggedInAsSdc();
        Files.createDirectories(after);
        marker(after);
        mounts(before("70") + after("71", "rw"));
        RemountFinder finder = RemountFinder.of(before, RUN, files);
        files.without(SDB);
        mounts(after("71", "rw"));
        assertThat(finder.look()).as("a copy on another drive").isEmpty();
        mounts("1 0 8:1 / / rw - ext4 /dev/sda1 rw\n");
        assertThat(finder.look()).isEmpty();
        mounts(after("71", "rw"));
        assertThat(finder.look()).as("unmounted meanwhile").isPresent();
    }

    @Test
    void aFolderWithoutItsMarkOrWithAnothersIsFoundAndSaysSo() throws IOException {
        RemountFinder finder = RemountFinder.of(before, RUN, files);
        pluggedInAsSdc();
        mounts(after("71", "rw"));
        Files.createDirectories(after);
        assertThat(finder.look().orElseThrow().marker()).isFalse();
        Files.writeString(after.resolve(RunMarker.NAME), "half a mar");
        assertThat(finder.look().orElseThrow().marker()).isFalse();
        marker(after);
        assertThat(finder.look().orElseThrow().marker()).isTrue();
    }

    @Test
    void aLinkInItsPlaceIsNotIt() throws IOException {
        RemountFinder finder = RemountFinder.of(before, RUN, files);
        pluggedInAsSdc();
        mounts(after("71", "rw"));
        Files.createDirectories(after.getParent());
        Files.createSymbolicLink(after, before);
        assertThat(finder.look()).isEmpty();
    }

    @Test
    void tellsThatItCannotBeReached() throws IOException {
        RemountFinder finder = RemountFinder.of(before, RUN, files);
        assertThat(finder.unreachable()).isFalse();
        Files.delete(before);
        assertThat(finder.unreachable()).isTrue();
    }
}
