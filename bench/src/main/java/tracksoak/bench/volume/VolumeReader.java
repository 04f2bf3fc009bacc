package tracksoak.bench.volume;

import java.io.EOFException;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tracksoak.profiles.base.Problem;

/**
 * Reads the file systems of a device or an image. Whatever the bytes hold, it ends, and what it keeps stays within bounds;
 * what contradicts itself is told as a trouble of the volume. Stateless; any thread.
 */
public final class VolumeReader {

    /** Where the superblock of ext2, ext3 and ext4 has its mark, and the mark. */
    private static final int EXT_MAGIC_AT = 1080;

    private static final int EXT_MAGIC = 0xEF53;

    private VolumeReader() {}

    /** The partitions of a device, in the order of its table; one numbered 0 where it is a volume as a whole. */
    public static List<Partition> partitions(ByteSource source) throws IOException {
        return PartitionTable.of(source);
    }

    /**
     * The first FAT32 or exFAT volume of a device.
     *
     * @throws Problem if there is none, or it is too damaged to be read; the words fit after the name of the device
     * @throws IOException if the device cannot be read
     */
    public static Volume read(ByteSource source) throws IOException {
        List<Partition> partitions = partitions(source);
        if (partitions.isEmpty()) {
            throw new Problem(
                    Problem.Kind.REFUSED,
                    "There is no file system that can be read",
                    "",
                    ext(source)
                            ? "it is ext2, ext3 or ext4, and only FAT32 and exFAT are read"
                            : "neither a partition table nor FAT32 or exFAT begins it",
                    "format it with FAT32 or exFAT, on the recorder if it can");
        }
        List<String> others = new ArrayList<>();
        for (Partition partition : partitions) {
            Optional<Volume> volume = volume(source, partition);
            if (volume.isPresent()) {
                return volume.get();
            }
            others.add(String.valueOf(partition.number()));
        }
        throw new Problem(
                Problem.Kind.REFUSED,
                "There is no file system that can be read",
                others.size() == 1 && partitions.get(0).number() == 0 ? "" : "partition " + String.join(", ", others),
                "only FAT32 and exFAT are",
                "format it with one of them, on the recorder if it can");
    }

    /** By the magic number of its superblock. */
    private static boolean ext(ByteSource source) throws IOException {
        return source.sizeBytes() >= EXT_MAGIC_AT + 2 && new Bytes(source.read(EXT_MAGIC_AT, 2)).u16(0) == EXT_MAGIC;
    }

    /**
     * The volume of one partition; empty if it is neither FAT32 nor exFAT.
     *
     * @throws Problem if it is, but is too damaged to be read
     * @throws IOException if the device cannot be read
     */
    public static Optional<Volume> volume(ByteSource source, Partition partition) throws IOException {
        if (partition.lengthBytes() < 512) {
            return Optional.empty();
        }
        Bytes boot = new Bytes(source.read(partition.startByte(), 512));
        try {
            if (FileSystems.exfat(boot)) {
                return Optional.of(new Exfat(source, partition, boot).read());
            }
            return FileSystems.fat(boot) ? Optional.of(new Fat32(source, partition, boot).read()) : Optional.empty();
        } catch (EOFException cut) {
            throw damaged("it points beyond the end of the device");
        }
    }

    static Problem tooLarge(long clusters) {
        return new Problem(
                Problem.Kind.REFUSED,
                "The file system has too many clusters to be looked at",
                clusters + ", at most " + ClusterTable.MOST_CLUSTERS,
                "",
                "format it with larger clusters");
    }

    static Problem damaged(String why) {
        return new Problem(
                Problem.Kind.REFUSED,
                "The file system is too damaged to be read",
                "",
                why,
                "save what is on it with a tool for that, then format it anew");
    }
}
