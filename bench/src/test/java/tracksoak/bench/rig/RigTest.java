package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.sun.nio.file.ExtendedOpenOption;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Isolated;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tracksoak.bench.stream.Stamp;
import tracksoak.profiles.base.SystemClocks;

/** The rig does what it says, shown without the bench: only then can it bear witness against it. */
@NeedsRig
@Isolated("holds what it measures against narrow limits")
class RigTest {

    private static final int CHUNK = 65_536;
    private static final long MIB = 1 << 20;

    @ParameterizedTest
    @EnumSource(FileSystem.class)
    void carriesAFileSystem(FileSystem fileSystem) throws IOException {
        try (Rig rig = Rig.of(fileSystem, 512)) {
            write(rig.path().resolve("a"), 16, false);
            Host.dropCaches();

            assertThat(Files.size(rig.path().resolve("a"))).isEqualTo(16L * CHUNK);
            assertThat(blocksNotTheirOwn(rig.path().resolve("a"))).isZero();
            assertThat(rig.drive().log().payloadBytes()).isEqualTo(16L * CHUNK);
        }
    }

    @Test
    void keepsTheRateAskedFor() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXT4, 64)) {
            rig.drive().set(Faults.none().rate(4_000_000));

            double seconds = write(rig.path().resolve("a"), 100, true);

            assertThat(100.0 * CHUNK / seconds).isLessThan(4_000_000 * 1.02);
            assertThat(typicalRate(rig.drive().log()) / 4_000_000).isCloseTo(1, within(0.1));
        }
    }

    @Test
    void fallsOffTheCliff() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXT4, 64)) {
            rig.drive().set(Faults.none().rate(40_000_000).cliff(8 * MIB, 3_000_000));

            double fast = write(rig.path().resolve("a"), 100, true);
            write(rig.path().resolve("b"), 30, true);
            long cliff = SystemClocks.NANO.nanoTime();
            double slow = write(rig.path().resolve("c"), 60, true);

            assertThat(100.0 * CHUNK / fast).isGreaterThan(5_000_000);
            assertThat(60.0 * CHUNK / slow).isLessThan(3_000_000 * 1.02);
            assertThat(typicalRate(rig.drive().log().between(cliff, Long.MAX_VALUE)) / 3_000_000)
                    .isCloseTo(1, within(0.1));
        }
    }

    @Test
    void stallsAndSaysSo() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXT4, 64)) {
            rig.drive().set(Faults.none().rate(20_000_000).stallOnce(700, 0));

            double seconds = write(rig.path().resolve("a"), 16, true);

            assertThat(seconds).isGreaterThan(0.7);
            assertThat(rig.drive().log().stalls()).hasSize(1);
            assertThat(rig.drive().log().stalls().get(0).serviceNs() / 1e6).isBetween(700.0, 900.0);
        }
    }

    @Test
    void stallsAgainAndAgain() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXT4, 64)) {
            rig.drive().set(Faults.none().rate(4_000_000).stallEvery(100, 400));

            double seconds = write(rig.path().resolve("a"), 120, true);

            assertThat((double) rig.drive().log().stalls().size()).isCloseTo(seconds / 0.4, within(1.5));
        }
    }

    @Test
    void wrapsBehindTheFileSystemsBack() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXFAT, 128)) {
            rig.drive().set(Faults.none().wrap(48 * MIB, 16 * MIB));
            write(rig.path().resolve("a"), 1_024, false);
            Host.dropCaches();

            long wrong = blocksNotTheirOwn(rig.path().resolve("a"));

            // 64 MiB written into 32 MiB and what lies below the wrap: at least a quarter cannot be what it was
            assertThat(wrong).isBetween(4_096L, 16_384L);
        }
    }

    @Test
    void dropsWhatItHasNoRoomFor() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXFAT, 128)) {
            rig.drive().set(Faults.none().dropFrom(32 * MIB));
            write(rig.path().resolve("a"), 1_024, false);
            Host.dropCaches();

            assertThat(blocksNotTheirOwn(rig.path().resolve("a"))).isGreaterThan(4_096L);
            assertThat(rig.drive().log().all())
                    .anyMatch(entry -> entry.outcome().equals("dropped"));
        }
    }

    @Test
    void flipsOneBitInSoManyBlocks() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXT4, 64)) {
            rig.drive().set(Faults.none().flipEvery(100, 7));

            write(rig.path().resolve("a"), 64, true);

            assertThat(rig.drive().log().flipped()).isEqualTo(64 * 16 / 100);
        }
    }

    @Test
    void failsWithAnError() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXT4, 64)) {
            rig.drive().set(Faults.none().eioAfterBytes(MIB));

            assertThatThrownBy(() -> write(rig.path().resolve("a"), 64, true)).isInstanceOf(IOException.class);
            assertThat(rig.drive().log().refused()).isNotEmpty();
            assertThat(rig.device().bytes()).isEqualTo(64 * MIB);
        }
    }

    @Test
    void refusesWritesAlone() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXT4, 64)) {
            write(rig.path().resolve("a"), 16, true);
            rig.writeProtect();

            assertThatThrownBy(() -> write(rig.path().resolve("b"), 16, true)).isInstanceOf(IOException.class);
            Host.dropCaches();
            assertThat(blocksNotTheirOwn(rig.path().resolve("a"))).isZero();
        }
    }

    @ParameterizedTest
    @EnumSource(FileSystem.class)
    void canBePulled(FileSystem fileSystem) throws IOException {
        try (Rig rig = Rig.of(fileSystem, 512)) {
            write(rig.path().resolve("a"), 16, false);
            rig.pull();

            assertThat(fileSystem == FileSystem.FAT32 || rig.device().bytes() == 0)
                    .isTrue();
            assertThatThrownBy(() -> write(rig.path().resolve("b"), 64, false)).isInstanceOf(IOException.class);
        }
    }

    @ParameterizedTest
    @EnumSource(FileSystem.class)
    void isTakenDownWhileAWriteHangs(FileSystem fileSystem) throws Exception {
        CompletableFuture<Double> writing = new CompletableFuture<>();
        try (Rig rig = Rig.of(fileSystem, 512)) {
            rig.drive().set(Faults.none().hangAfterMs(0));
            Thread writer = new Thread(() -> {
                try {
                    writing.complete(write(rig.path().resolve("a"), 64, false));
                } catch (IOException e) {
                    writing.completeExceptionally(e);
                }
            });
            writer.setDaemon(true);
            writer.start();

            assertThat(Host.await(5_000, () -> !rig.drive().log().hangs().isEmpty()))
                    .isTrue();
            assertThat(writing).isNotDone();
        }
        assertThat(Host.await(TimeUnit.SECONDS.toMillis(5), writing::isDone)).isTrue();
    }

    @Test
    void comesBackFromAHang() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXT4, 64)) {
            rig.drive().set(Faults.none().hangAfterMs(0).hangMs(800));

            assertThat(write(rig.path().resolve("a"), 16, true)).isBetween(0.8, 5.0);
        }
    }

    @Test
    @NeedsRig(throttle = true)
    void isThrottledByTheKernel() throws IOException {
        try (ThrottledDrive drive = ThrottledDrive.of(64, 4 * MIB)) {
            double seconds = write(drive.path().resolve("a"), 160, true);

            assertThat(160.0 * CHUNK / seconds / (4 * MIB)).isCloseTo(1, within(0.1));
        }
    }

    @Test
    void aKilledTestsLeftoversAreSweptByTheNext() {
        Backend.showConnections();
        try (RigFolder folder = RigFolder.fresh()) {
            Loop loop = Loop.attach(Backend.start(folder.path(), 64 << 20).disk());
            FileSystem.EXT4.make(loop.device());
            Path mount = folder.path().resolve("drive");
            assertThat(mount.toFile().mkdir()).isTrue();
            FileSystem.EXT4.mount(loop.device(), mount);
            assertThat(RigFolder.leftovers()).hasSize(5);

            RigFolder.sweepAll();

            assertThat(RigFolder.leftovers()).isEmpty();
            assertThat(folder.path()).doesNotExist();
            assertThat(folder.path().toFile().mkdir()).isTrue();
        }
    }

    /** Writes {@code chunks} of stamped blocks and says how long it took, in s. */
    private static double write(Path file, int chunks, boolean direct) throws IOException {
        ByteBuffer buffer =
                Stamp.ordered(ByteBuffer.allocateDirect(CHUNK + 4096).alignedSlice(4096));
        long start = SystemClocks.NANO.nanoTime();
        Set<java.nio.file.OpenOption> options = direct
                ? Set.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE, ExtendedOpenOption.DIRECT)
                : Set.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE, StandardOpenOption.DSYNC);
        try (FileChannel channel = FileChannel.open(file, options)) {
            for (int chunk = 0; chunk < chunks; chunk++) {
                for (int block = 0; block < CHUNK / Stamp.BLOCK; block++) {
                    Stamp.header(buffer, block * Stamp.BLOCK, 1, 0, 0, (long) chunk * (CHUNK / Stamp.BLOCK) + block);
                }
                buffer.clear().limit(CHUNK);
                while (buffer.hasRemaining()) {
                    channel.write(buffer);
                }
            }
        }
        return (SystemClocks.NANO.nanoTime() - start) / 1e9;
    }

    /** From the median time between two writes: a host that is busy for a moment does not spoil it. In B/s. */
    private static double typicalRate(RequestLog log) {
        long[] starts = log.payloadWrites().stream()
                .mapToLong(RequestLog.Entry::startNs)
                .toArray();
        long[] periods = LongStream.range(1, starts.length)
                .map(i -> starts[(int) i] - starts[(int) i - 1])
                .sorted()
                .toArray();
        return CHUNK * 1e9 / periods[periods.length / 2];
    }

    private static long blocksNotTheirOwn(Path file) throws IOException {
        ByteBuffer all = Stamp.ordered(ByteBuffer.wrap(Files.readAllBytes(file)));
        return LongStream.range(0, all.capacity() / Stamp.BLOCK)
                .filter(block -> all.getLong((int) block * Stamp.BLOCK + 16) != block
                        || all.getInt((int) block * Stamp.BLOCK + 28) != Stamp.MAGIC)
                .count();
    }
}
