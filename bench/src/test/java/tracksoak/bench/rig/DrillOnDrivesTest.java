package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tracksoak.bench.stream.Stamp;
import tracksoak.report.record.facts.drill.DrillFile;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.facts.drill.DrillTrack;
import tracksoak.report.record.json.RecordFormats;

/**
 * The unplug drill on real block devices: pulled in the middle, plugged in again under another name at another place. What
 * was on the medium is read from the backend's own blocks and its log, without any file system.
 */
@NeedsRig
class DrillOnDrivesTest {

    private static final int TRACKS = 8;
    private static final int CHUNK = 64 << 10;
    private static final int PULLED_PASS = 2;
    private static final long ENOUGH = 5_800_000;

    @TempDir
    Path host;

    @ParameterizedTest
    @EnumSource(
            value = FileSystem.class,
            names = {"EXT4", "EXFAT"})
    void whatIsFoundIsWhatReachedTheMedium(FileSystem fileSystem) throws IOException {
        try (Rig rig = Rig.thatKeeps(fileSystem, 512);
                Program drill = drill(rig)) {
            pullInTheMiddle(rig, drill);
            RequestLog log = rig.drive().log();
            rig.plugInAgain();
            Map<Integer, BitSet> medium = medium(rig.store());
            int code = drill.await();

            assertThat(code).as(drill.output()).isZero();
            DrillRecord record = RecordFormats.DRILL.read(Files.readAllBytes(host.resolve("drill/drill.json")));
            assertThat(medium.values().stream().mapToLong(BitSet::cardinality).sum())
                    .as("the log and the medium agree on what arrived")
                    .isLessThanOrEqualTo(log.payloadBytes() / Stamp.BLOCK);
            agrees(record, medium);
            assertThat(Objects.requireNonNull(record.back()).mount())
                    .isEqualTo(String.valueOf(rig.path().getFileName()));
            assertThat(host.resolve("drill/drill.html")).exists();
            assertThat(rig.path().toFile().list((folder, name) -> name.startsWith("TRACKSOAK-")))
                    .as("cleared where the drive is now; the drill said: %s", drill.output())
                    .isEmpty();
        }
    }

    @Test
    void lockedWhenItIsBackItsFolderStaysAndThatIsSaid() throws IOException {
        try (Rig rig = Rig.thatKeeps(FileSystem.EXT4, 512);
                Program drill = drill(rig)) {
            pullInTheMiddle(rig, drill);
            rig.plugInAgainLocked();

            assertThat(drill.await()).as(drill.output()).isZero();
            DrillRecord record = RecordFormats.DRILL.read(Files.readAllBytes(host.resolve("drill/drill.json")));
            assertThat(record.state()).isEqualTo(DrillRecord.State.COMPLETE);
            assertThat(Objects.requireNonNull(record.back()).readOnly()).isTrue();
            assertThat(drill.output())
                    .contains("the drive is read-only now", "another place", "lock switch", "tracksoak clear")
                    .doesNotContain("the drive is gone, with");
            assertThat(rig.path().toFile().list((folder, name) -> name.startsWith("TRACKSOAK-")))
                    .hasSize(1);
        }
    }

    private Program drill(Rig rig) {
        return Program.of(
                host,
                "drill",
                rig.path().toString(),
                "--session",
                "trio-8",
                "--file-systems",
                "ext4,exfat",
                "--flush",
                "3s",
                "--reserve",
                "16MiB",
                "--after",
                "6s",
                "--yes",
                "--out",
                host.resolve("drill").toString());
    }

    private static void pullInTheMiddle(Rig rig, Program drill) {
        // the stopped take of 5 s and some seconds of the other (8 × 144,000 B/s, arithmetic)
        assertThat(Host.await(60_000, () -> !drill.alive() || payload(rig) > ENOUGH + 5 * 8 * 144_000))
                .isTrue();
        assertThat(drill.alive()).as(drill.output()).isTrue();
        rig.pull();
        assertThat(Host.await(30_000, () -> drill.output().contains("plug the drive in again") || !drill.alive()))
                .as(drill.output())
                .isTrue();
    }

    /** What the record says of every track is what lies on the medium. */
    static void agrees(DrillRecord record, Map<Integer, BitSet> medium) {
        String told = record.toString();
        assertThat(record.state()).as(told).isEqualTo(DrillRecord.State.COMPLETE);
        for (int stream = 0; stream < TRACKS; stream++) {
            DrillTrack track = record.tracks().get(stream);
            long arrived = (long) medium.getOrDefault(stream, new BitSet()).nextClearBit(0) * Stamp.BLOCK;
            long readable = Objects.requireNonNull(track.readableBytes());
            // every write that came back is on the medium, and at most the one under way besides
            assertThat(track.writtenBytes()).as(told).isBetween(arrived - CHUNK, arrived);
            assertThat(readable).as(told).isBetween(0L, arrived);
            assertThat(track.producedBytes()).isGreaterThanOrEqualTo(track.writtenBytes());
            assertThat(track.flushedBytes()).isPositive();
            if ("ext4".equals(record.drive().fileSystem())) {
                // a flush on ext4 makes data and size durable; the backend has no memory of its own
                assertThat(readable).as(told).isGreaterThanOrEqualTo(track.flushedBytes());
            }
        }
        for (DrillFile file : record.files()) {
            if (file.stoppedFirst()) {
                assertThat(file.use()).as(told).isEqualTo(DrillFile.Use.OPENS);
            }
        }
        assertThat(Objects.requireNonNull(record.findings()).stoppedLostMs()).isZero();
    }

    private static long payload(Rig rig) {
        return rig.drive().log().payloadBytes();
    }

    /** Numbers of the stamped blocks of the pulled take, per stream, wherever they lie on the medium. */
    static Map<Integer, BitSet> medium(Path store) throws IOException {
        Map<Integer, BitSet> found = new TreeMap<>();
        try (RandomAccessFile file = new RandomAccessFile(store.toFile(), "r");
                FileChannel channel = file.getChannel()) {
            ByteBuffer blocks = ByteBuffer.allocate(1 << 20).order(ByteOrder.LITTLE_ENDIAN);
            while (channel.read(blocks.clear()) > 0) {
                for (int at = 0; at + Stamp.BLOCK <= blocks.position(); at += Stamp.BLOCK) {
                    if (blocks.getInt(at + 28) == Stamp.MAGIC && blocks.getInt(at + 24) == PULLED_PASS) {
                        found.computeIfAbsent(blocks.getInt(at + 4), stream -> new BitSet())
                                .set(Math.toIntExact(blocks.getLong(at + 16)));
                    }
                }
            }
        }
        return found;
    }
}
