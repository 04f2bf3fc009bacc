package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import tracksoak.bench.drive.folder.Workspace;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.bench.stream.Stamp;
import tracksoak.bench.stream.StreamFiles;

/**
 * A stream that outgrows one file, on a real file system: FAT32's largest file is 4,294,967,295 bytes (Microsoft's table of
 * size constraints). Only the last 8 MiB before the limit and what follows are really written, so the file has a hole.
 */
@NeedsRig
class FileLimitTest {

    private static final long LIMIT = (1L << 32) - 1;
    private static final int CHUNK = 65_536;

    @Test
    void theNextFileIsBegunJustBelowTheLimit() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXT4, 128)) {
            LeftOnDrive left = LeftOnDrive.before(rig.path());
            Workspace workspace = Workspace.create(
                    rig.path(), "0190f3b2-0000-7000-8000-000000000003", "2026-05-17T19:30:00Z", Path.of("record.json"));
            Path folder = workspace.folder();
            Drive drive = new HollowDrive(RealDrive.open(folder), LIMIT - (8 << 20));
            StreamFiles files = new StreamFiles(drive, "take-1", 1, 7, 1, LIMIT);
            ChunkStamper stamper = new ChunkStamper(7, 7, true, CHUNK, 4096);
            files.begin(0);
            long more = 100;
            while (files.files(0) < 2 || more-- > 0) {
                if (files.mustSplit(0, CHUNK)) {
                    files.split(0);
                }
                files.append(0, stamper.stamp(0, 1, files.nextBlock(0), CHUNK));
            }
            files.rewriteHeader(0);
            files.flushWhole(0);
            files.close(0);

            Path first = folder.resolve("take-1-track-0001-part-001.soak");
            Path second = folder.resolve("take-1-track-0001-part-002.soak");
            long size = Files.size(first);
            assertThat(size).isLessThanOrEqualTo(LIMIT).isGreaterThan(LIMIT - CHUNK - 4096);
            long blocks = (size - 4096) / Stamp.BLOCK;
            assertThat(numberAt(first, size - Stamp.BLOCK)).isEqualTo(blocks - 1);
            assertThat(numberAt(second, 4096)).isEqualTo(blocks);
            assertThat(files.written()).hasSize(2);
            assertThat(files.written().get(1).firstBlock()).isEqualTo(blocks);

            workspace.remove();
            left.nothing(rig.path());
        }
    }

    private static long numberAt(Path file, long at) throws IOException {
        ByteBuffer block = ByteBuffer.allocate(Stamp.BLOCK).order(ByteOrder.LITTLE_ENDIAN);
        try (FileChannel channel = FileChannel.open(file)) {
            assertThat(channel.read(block, at)).isEqualTo(Stamp.BLOCK);
        }
        assertThat(block.getInt(28)).isEqualTo(Stamp.MAGIC);
        return block.getLong(16);
    }
}
