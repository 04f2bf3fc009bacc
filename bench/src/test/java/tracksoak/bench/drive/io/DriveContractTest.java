package tracksoak.bench.drive.io;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.FileAlreadyExistsException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tracksoak.bench.stream.Stamp;
import tracksoak.report.record.facts.IoMode;

/**
 * What every drive keeps to, be it real, simulated or a fault injector in its healthy state. A subclass makes an empty
 * drive per test. What is written are stamped blocks, as drives that keep no bodies need them.
 */
public abstract class DriveContractTest {

    private static final long RUN = 0x5eed_0000_0000_0001L;

    private Drive drive;

    /** A healthy drive with an empty folder and at least 16 MiB of room. */
    protected abstract Drive emptyDrive() throws IOException;

    /** Called after each test, when the drive is closed, to clear up or to look for leaks. */
    protected void afterDrive() throws IOException {}

    @BeforeEach
    final void openDrive() throws IOException {
        drive = emptyDrive();
    }

    @AfterEach
    final void closeDrive() throws IOException {
        try {
            drive.close();
        } finally {
            afterDrive();
        }
    }

    @Test
    void startsEmpty() throws IOException {
        assertThat(drive.list()).isEmpty();
    }

    @Test
    void readsBackWhatWasWritten() throws IOException {
        int chunk = chunk();
        try (DriveFile file = drive.create("a.soak")) {
            file.write(stamped(3, 0, chunk), 0);
            file.write(stamped(3, chunk / Stamp.BLOCK, chunk), chunk);
            file.flush(true);
            assertThat(file.size()).isEqualTo(2L * chunk);
        }
        drive.syncFolder();
        drive.forgetCached();
        try (DriveFile file = drive.open("a.soak")) {
            ByteBuffer target = aligned(2 * chunk);
            assertThat(file.read(target, 0)).isEqualTo(2 * chunk);
            assertThat(target.position()).isEqualTo(2 * chunk);
            assertThat(file.size()).isEqualTo(2L * chunk);
            assertStamped(target, 3, 0, 2 * chunk);
        }
    }

    @Test
    void readsFromTheMiddle() throws IOException {
        int chunk = chunk();
        try (DriveFile file = drive.create("a.soak")) {
            file.write(stamped(1, 0, 3 * chunk), 0);
        }
        try (DriveFile file = drive.open("a.soak")) {
            ByteBuffer target = aligned(chunk);
            assertThat(file.read(target, chunk)).isEqualTo(chunk);
            assertStamped(target, 1, chunk / Stamp.BLOCK, chunk);
        }
    }

    @Test
    void leavesTheSourceDrainedAndItsLimitAlone() throws IOException {
        ByteBuffer source = stamped(1, 0, 2 * chunk());
        source.position(0).limit(chunk());
        try (DriveFile file = drive.create("a.soak")) {
            file.write(source, 0);
            assertThat(source.position()).isEqualTo(chunk());
            assertThat(source.limit()).isEqualTo(chunk());
            assertThat(file.size()).isEqualTo(chunk());
        }
    }

    @Test
    void overwritesInsideItsOwnFile() throws IOException {
        int chunk = chunk();
        try (DriveFile file = drive.create("a.soak")) {
            file.write(stamped(1, 0, 2 * chunk), 0);
            file.write(stamped(9, 0, chunk), 0);
            assertThat(file.size()).isEqualTo(2L * chunk);
            ByteBuffer target = aligned(chunk);
            assertThat(file.read(target, 0)).isEqualTo(chunk);
            assertStamped(target, 9, 0, chunk);
        }
    }

    @Test
    void givesNothingAtOrPastTheEndAndLessAcrossIt() throws IOException {
        int chunk = chunk();
        try (DriveFile file = drive.create("a.soak")) {
            file.write(stamped(1, 0, chunk), 0);
        }
        try (DriveFile file = drive.open("a.soak")) {
            assertThat(file.read(aligned(chunk), chunk)).isZero();
            assertThat(file.read(aligned(chunk), 4L * chunk)).isZero();
            ByteBuffer target = aligned(2 * chunk);
            assertThat(file.read(target, 0)).isEqualTo(chunk);
            assertThat(target.position()).isEqualTo(chunk);
        }
    }

    @Test
    void refusesANameThatIsTaken() throws IOException {
        try (DriveFile file = drive.create("a.soak")) {
            file.write(stamped(1, 0, chunk()), 0);
        }
        assertThatThrownBy(() -> drive.create("a.soak")).isInstanceOf(FileAlreadyExistsException.class);
        try (DriveFile file = drive.open("a.soak")) {
            assertThat(file.size()).as("the file that was there is untouched").isEqualTo(chunk());
        }
    }

    @Test
    void refusesToOpenOrDeleteWhatIsNotThere() {
        assertThatThrownBy(() -> drive.open("none.soak")).isInstanceOf(IOException.class);
        assertThatThrownBy(() -> drive.delete("none.soak")).isInstanceOf(IOException.class);
    }

    @Test
    void refusesNamesThatLeadOutOfTheFolder() {
        for (String name : List.of("", ".", "..", "../a.soak", "/a.soak", "a/b.soak", "a\\b.soak", "a\0b", "a\nb")) {
            assertThatThrownBy(() -> drive.create(name)).as("create <%s>", name).isInstanceOf(IOException.class);
            assertThatThrownBy(() -> drive.open(name)).as("open <%s>", name).isInstanceOf(IOException.class);
            assertThatThrownBy(() -> drive.delete(name)).as("delete <%s>", name).isInstanceOf(IOException.class);
        }
    }

    @Test
    void refusesOrHonoursWhatIsNotAligned() throws IOException {
        int chunk = chunk();
        try (DriveFile file = drive.create("a.soak")) {
            file.write(stamped(1, 0, chunk), 0);
            ByteBuffer odd = stamped(1, 0, chunk);
            odd.limit(chunk - 1);
            boolean honoured;
            try {
                file.write(odd, chunk);
                honoured = true;
            } catch (IOException | IllegalArgumentException e) {
                honoured = false;
            }
            assertThat(file.size()).isEqualTo(honoured ? 2L * chunk - 1 : chunk);
        }
    }

    @Test
    void alignsToAPowerOfTwoOfAtLeastABlock() {
        assertThat(drive.alignmentBytes()).isGreaterThanOrEqualTo(Stamp.BLOCK);
        assertThat(Integer.bitCount(drive.alignmentBytes())).isOne();
    }

    @Test
    void saysWhyItDoesNotWriteDirectly() {
        if (drive.ioMode() == IoMode.WRITE_THROUGH) {
            assertThat(drive.ioReason()).isNotBlank();
        } else {
            assertThat(drive.ioReason()).isEmpty();
        }
    }

    @Test
    void listsItsFilesSortedAndForgetsDeletedOnes() throws IOException {
        for (String name : List.of("c.soak", "a.soak", "b.soak")) {
            drive.create(name).close();
        }
        assertThat(drive.list()).containsExactly("a.soak", "b.soak", "c.soak");
        drive.delete("b.soak");
        assertThat(drive.list()).containsExactly("a.soak", "c.soak");
        drive.create("b.soak").close();
        assertThat(drive.list()).containsExactly("a.soak", "b.soak", "c.soak");
    }

    @Test
    void carriesManyOpenFilesAtOnce() throws IOException {
        int count = 200;
        int chunk = Math.max(Stamp.BLOCK, drive.alignmentBytes());
        List<DriveFile> files = new ArrayList<>();
        List<String> names = new ArrayList<>();
        try {
            for (int i = 0; i < count; i++) {
                String name = String.format("track-%03d-part-1.soak", i);
                names.add(name);
                files.add(drive.create(name));
            }
            for (int i = 0; i < count; i++) {
                files.get(i).write(stamped(i, 0, chunk), 0);
            }
        } finally {
            for (DriveFile file : files) {
                file.close();
            }
        }
        assertThat(drive.list()).isEqualTo(names);
        Collections.reverse(names);
        for (String name : names) {
            try (DriveFile file = drive.open(name)) {
                ByteBuffer target = aligned(chunk);
                assertThat(file.read(target, 0)).isEqualTo(chunk);
                assertStamped(target, Integer.parseInt(name.substring(6, 9)), 0, chunk);
            }
        }
    }

    @Test
    void closesTwiceAndDoesNothingAfterwards() throws IOException {
        DriveFile file = drive.create("a.soak");
        file.close();
        file.close();
        assertThatThrownBy(() -> file.write(stamped(1, 0, chunk()), 0)).isInstanceOf(IOException.class);
        assertThatThrownBy(() -> file.read(aligned(chunk()), 0)).isInstanceOf(IOException.class);
        drive.close();
        drive.close();
    }

    @Test
    void roomShrinksByWhatIsWritten() throws IOException {
        long before = drive.usableBytes();
        int megabyte = 1 << 20;
        try (DriveFile file = drive.create("a.soak")) {
            for (int i = 0; i < 8; i++) {
                file.write(stamped(1, (long) i * megabyte / Stamp.BLOCK, megabyte), (long) i * megabyte);
            }
            file.flush(true);
        }
        drive.syncFolder();
        assertThat(before).isPositive();
        if (roomIsOurs()) {
            assertThat(before - drive.usableBytes()).isBetween(8L * megabyte, 9L * megabyte);
        }
    }

    /** Whether nobody else writes to the drive during the test, so that room can be counted. */
    protected boolean roomIsOurs() {
        return true;
    }

    @Test
    void isNotGoneAndCountsUpwards() throws IOException {
        assertThat(drive.presence()).isIn(Drive.Presence.PRESENT, Drive.Presence.UNKNOWN);
        long before = drive.counters().map(Drive.Counters::bytesWritten).orElse(0L);
        try (DriveFile file = drive.create("a.soak")) {
            file.write(stamped(1, 0, chunk()), 0);
            file.flush(false);
        }
        drive.counters()
                .ifPresent(after -> assertThat(after.bytesWritten() - before).isGreaterThanOrEqualTo(chunk()));
    }

    private int chunk() {
        return Math.max(64 << 10, drive.alignmentBytes());
    }

    private ByteBuffer aligned(int bytes) {
        int unit = drive.alignmentBytes();
        ByteBuffer buffer = ByteBuffer.allocateDirect(bytes + unit).alignedSlice(unit);
        return Stamp.ordered(buffer.limit(bytes).slice());
    }

    private ByteBuffer stamped(int stream, long firstBlock, int bytes) {
        ByteBuffer buffer = aligned(bytes);
        for (int at = 0; at < bytes; at += Stamp.BLOCK) {
            Stamp.header(buffer, at, RUN, stream, 0, firstBlock + at / Stamp.BLOCK);
        }
        return buffer;
    }

    private static void assertStamped(ByteBuffer read, int stream, long firstBlock, int bytes) {
        ByteBuffer expected = Stamp.ordered(ByteBuffer.allocate(Stamp.LENGTH));
        for (int at = 0; at < bytes; at += Stamp.BLOCK) {
            Stamp.header(expected, 0, RUN, stream, 0, firstBlock + at / Stamp.BLOCK);
            assertThat(read.slice(at + 4, Stamp.LENGTH - 4))
                    .as("stamp at %d", at)
                    .isEqualTo(expected.slice(4, Stamp.LENGTH - 4));
        }
    }
}
