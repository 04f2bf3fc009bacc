package tracksoak.bench.drive.io;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.sun.jna.Native;
import com.sun.management.ThreadMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.ByteBuffer;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.drive.BuildFolder;
import tracksoak.bench.drive.io.NoPlaceException.Lack;

/** The kernel's own calls; what they wrote is read by the JDK. */
@EnabledOnOs(OS.LINUX)
class NativeFileTest {

    private static final int CHUNK = 64 << 10;

    @TempDir(factory = BuildFolder.class)
    Path folder;

    @Test
    void isHere() {
        assertThat(Libc.HERE).isTrue();
    }

    @Test
    void writesWhereItIsToldFromWhereTheBufferStands() throws IOException {
        ByteBuffer buffer = buffer(3 * Writing.UNIT);
        for (int at = 0; at < buffer.capacity(); at++) {
            buffer.put(at, (byte) (at / Writing.UNIT + 1));
        }
        Path path = folder.resolve("Bühne 1.soak");
        try (NativeFile file = NativeFile.create(path)) {
            file.write(buffer.position(Writing.UNIT).limit(3 * Writing.UNIT), 0);
            assertThat(buffer.hasRemaining()).isFalse();
            assertThat(file.size()).isEqualTo(2L * Writing.UNIT);
        }
        byte[] there = Files.readAllBytes(path);
        assertThat(there).hasSize(2 * Writing.UNIT);
        assertThat(there[0]).isEqualTo((byte) 2);
        assertThat(there[2 * Writing.UNIT - 1]).isEqualTo((byte) 3);
        ByteBuffer target = buffer(3 * Writing.UNIT);
        try (NativeFile file = NativeFile.open(path)) {
            assertThat(file.read(target.position(Writing.UNIT), Writing.UNIT)).isEqualTo(Writing.UNIT);
        }
        assertThat(target.get(Writing.UNIT)).isEqualTo((byte) 3);
        assertThat(target.position()).isEqualTo(2 * Writing.UNIT);
    }

    @Test
    void makesAFileLongerWithoutWritingIt() throws IOException {
        Path path = folder.resolve("long.soak");
        try (NativeFile file = NativeFile.create(path)) {
            file.write(buffer(CHUNK), 0);
            assertThat(file.lengthen(1 << 20)).isTrue();
            assertThat(file.size()).isEqualTo(1 << 20);
            // more than any file may hold
            assertThat(file.lengthen(Long.MAX_VALUE)).isFalse();
        }
        byte[] there = Files.readAllBytes(path);
        assertThat(there).hasSize(1 << 20);
        assertThat(there[(1 << 20) - 1]).isZero();
    }

    @Test
    void refusesWhatIsThereAndWhatIsNot() throws IOException {
        Path path = folder.resolve("a.soak");
        NativeFile.create(path).close();
        assertThatThrownBy(() -> NativeFile.create(path)).isInstanceOf(FileAlreadyExistsException.class);
        assertThatThrownBy(() -> NativeFile.open(folder.resolve("none"))).isInstanceOf(NoSuchFileException.class);
        Path link = Files.createSymbolicLink(folder.resolve("link.soak"), path);
        assertThatThrownBy(() -> NativeFile.open(link)).isInstanceOf(IOException.class);
    }

    @Test
    void saysWhatTheSystemSays() throws IOException {
        Path path = folder.resolve("a.soak");
        NativeFile.create(path).close();
        try (NativeFile file = NativeFile.open(path)) {
            assertThatThrownBy(() -> file.write(buffer(CHUNK), 0)).hasMessage("Bad file descriptor");
        }
    }

    /** As in Linux's errno(3): 28, 27 and 122, the same on every machine we ship for. */
    @Test
    void namesWhatIsLackingByTheSystemsNumber() {
        Map.of(28, Lack.ROOM, 27, Lack.LENGTH, 122, Lack.QUOTA).forEach((number, lack) -> {
            Native.setLastError(number);
            assertThat(Libc.failed())
                    .isInstanceOfSatisfying(
                            NoPlaceException.class,
                            full -> assertThat(full.lack()).isEqualTo(lack));
            Native.setLastError(number);
            assertThat(Libc.unable()).as("room in advance is done without").isTrue();
        });
        Native.setLastError(5);
        assertThat(Libc.failed()).isNotInstanceOf(NoPlaceException.class).hasMessage("Input/output error");
    }

    @Test
    void writesThroughTheMemoryAndGivesNoRoomInAdvance() throws IOException {
        Path path = folder.resolve("through.soak");
        try (NativeFile file = NativeFile.createThrough(path)) {
            file.write(buffer(CHUNK), 0);
            assertThat(file.extend(1 << 20)).isFalse();
            assertThat(file.lengthen(1 << 20)).isFalse();
            file.flush(true);
        }
        assertThat(Files.size(path)).isEqualTo(CHUNK);
        assertThatThrownBy(() -> NativeFile.createThrough(path)).isInstanceOf(FileAlreadyExistsException.class);
    }

    /** The write path allocates nothing, as a collection in the middle of a take would be the bench's own stall. */
    @Test
    void allocatesNothing() throws IOException {
        ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
        long thread = Thread.currentThread().getId();
        ByteBuffer buffer = buffer(CHUNK);
        try (NativeFile file = NativeFile.create(folder.resolve("a.soak"))) {
            round(file, buffer, 100);
            threads.getThreadAllocatedBytes(thread);
            long before = threads.getThreadAllocatedBytes(thread);
            round(file, buffer, 100);
            long allocated = threads.getThreadAllocatedBytes(thread) - before;
            assertThat(allocated).as("bytes in 100 writes, reads and flushes").isLessThan(100);
        }
    }

    private static void round(NativeFile file, ByteBuffer buffer, int times) throws IOException {
        for (int i = 0; i < times; i++) {
            file.write(buffer.clear(), (long) (i % 10) * CHUNK);
            file.read(buffer.clear(), 0);
            if (i % 10 == 0) {
                file.flush(false);
            }
        }
    }

    private static ByteBuffer buffer(int bytes) {
        return ByteBuffer.allocateDirect(bytes + Writing.UNIT)
                .alignedSlice(Writing.UNIT)
                .slice(0, bytes);
    }
}
