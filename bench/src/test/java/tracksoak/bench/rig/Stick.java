package tracksoak.bench.rig;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;

/**
 * A USB stick as a sparse image with a partition table (master boot record), for a {@link Guest}.
 *
 * @param image its file
 * @param serial as it tells
 * @param port of the emulated hub, from 1
 * @param refusesWrites whether its switch is slid
 */
record Stick(Path image, String serial, int port, boolean refusesWrites) {

    /** Where the first partition begins, in bytes: as sticks are sold. */
    static final long FIRST = 1 << 20;

    static final int EXFAT = 7;
    static final int FAT32 = 12;

    private static final int SECTOR = 512;
    private static final int TABLE = 446;
    private static final int ENTRY = 16;

    /** An empty one. */
    static Stick of(Path folder, String serial, int type, long... partitionBytes) {
        Stick stick = new Stick(folder.resolve(serial + ".img"), serial, 2, false);
        ByteBuffer table = ByteBuffer.allocate(SECTOR).order(ByteOrder.LITTLE_ENDIAN);
        long at = FIRST;
        for (int i = 0; i < partitionBytes.length; i++) {
            table.put(TABLE + i * ENTRY + 4, (byte) type)
                    .putInt(TABLE + i * ENTRY + 8, Math.toIntExact(at / SECTOR))
                    .putInt(TABLE + i * ENTRY + 12, Math.toIntExact(partitionBytes[i] / SECTOR));
            at += partitionBytes[i];
        }
        table.putShort(SECTOR - 2, (short) 0xaa55);
        try (RandomAccessFile file = new RandomAccessFile(stick.image().toFile(), "rw")) {
            file.setLength(at);
            file.write(table.array());
        } catch (IOException e) {
            throw new UncheckedIOException("cannot make a stick", e);
        }
        return stick;
    }

    Stick atPort(int other) {
        return new Stick(image, serial, other, refusesWrites);
    }

    Stick writeProtected() {
        return new Stick(image, serial, port, true);
    }

    /** The emulator's name for its contents. */
    String node() {
        return "contents-" + serial;
    }

    /** One byte of the first partition, past every file system. */
    int byteAt(int offset) {
        try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "r")) {
            file.seek(FIRST + offset);
            return file.readUnsignedByte();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
