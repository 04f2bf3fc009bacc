package tracksoak.bench.volume;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/**
 * The partitions of a device. Sources: the four entries of a master boot record as every operating system reads them
 * (common practice, no source); UEFI specification 2.10 chapter 5.3 for the GUID table.
 */
final class PartitionTable {

    private static final int SECTOR = 512;
    private static final int FIRST_ENTRY = 446;
    private static final int ENTRY = 16;
    private static final int PROTECTIVE = 0xEE;
    private static final int MOST_GUID_ENTRIES = 128;
    private static final int[] SECTORS = {512, 4096};

    private PartitionTable() {}

    /** The partitions in the order of their table; the device as a whole where its first sector begins a file system. */
    static List<Partition> of(ByteSource source) throws IOException {
        long size = source.sizeBytes();
        if (size < SECTOR) {
            return List.of();
        }
        Bytes first = new Bytes(source.read(0, SECTOR));
        if (FileSystems.begins(first)) {
            return List.of(new Partition(0, 0, size));
        }
        List<Partition> partitions = new ArrayList<>();
        if (first.u16(510) != 0xAA55) {
            return partitions;
        }
        for (int i = 0; i < 4; i++) {
            int at = FIRST_ENTRY + i * ENTRY;
            int type = first.u8(at + 4);
            if (type == PROTECTIVE) {
                return guid(source, size);
            }
            if (type != 0) {
                add(partitions, i + 1, first.u32(at + 8) * SECTOR, first.u32(at + 12) * SECTOR, size);
            }
        }
        return partitions;
    }

    private static List<Partition> guid(ByteSource source, long size) throws IOException {
        List<Partition> partitions = new ArrayList<>();
        for (int sector : SECTORS) {
            if (size < 2L * sector) {
                continue;
            }
            Bytes head = new Bytes(source.read(sector, SECTOR));
            if (!head.holds(0, "EFI PART")) {
                continue;
            }
            long at = Math.min(head.u64(72), size / sector) * sector;
            long entries = Math.min(head.u32(80), MOST_GUID_ENTRIES);
            long length = head.u32(84);
            for (int i = 0; length >= 128 && length <= 4096 && i < entries; i++) {
                long entryAt = at + i * length;
                if (entryAt > size - 128) {
                    break;
                }
                Bytes entry = new Bytes(source.read(entryAt, 128));
                boolean used = entry.u64(0) != 0 || entry.u64(8) != 0;
                long from = Math.min(entry.u64(32), size / sector);
                long to = Math.min(entry.u64(40), size / sector);
                if (used && to >= from) {
                    add(partitions, i + 1, from * sector, (to - from + 1) * sector, size);
                }
            }
            return partitions;
        }
        return partitions;
    }

    private static void add(List<Partition> to, int number, long start, long length, long size) {
        if (start > 0 && start <= size - SECTOR && length > 0) {
            to.add(new Partition(number, start, Math.min(length, size - start)));
        }
    }
}
