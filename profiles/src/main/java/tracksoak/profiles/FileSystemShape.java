package tracksoak.profiles;

import java.util.Locale;

/**
 * How a file system gives out room: in whole clusters, with a folder that takes clusters itself. FAT32 and exFAT follow
 * their published layouts; for the others the folder is estimated. A session's files are taken to lie in one new folder,
 * and its file names to have {@link #ASSUMED_NAME_CHARS} characters, unless told otherwise.
 *
 * @param type name in lower case, as the bench reports it
 * @param clusterBytes unit of allocation in bytes, a power of two
 * @param maxFileBytes largest file in bytes
 * @param directory how its folders are laid out
 * @param nameChars length of each file name in characters
 */
public record FileSystemShape(String type, long clusterBytes, long maxFileBytes, Directory directory, int nameChars) {

    /** Length taken for a file name where nobody knows how the recorder names its files: common practice, no source. */
    public static final int ASSUMED_NAME_CHARS = 24;

    private static final long KIB = 1024;
    private static final long MIB = 1024 * KIB;
    private static final long GIB = 1024 * MIB;

    /** How a folder is laid out. */
    public enum Directory {
        /**
         * 32-byte entries: one per file, one more per 13 characters of a long name, two for the folder itself. Source: FAT
         * specification; a folder holds at most 2,097,152 B.
         */
        FAT32(32, 13, 1, 2, 2 * MIB),
        /**
         * 32-byte entries: two per file and one more per 15 characters of its name; none for the folder itself. Source:
         * exFAT specification 1.00, §§6.2, 7.4, 7.6, 7.7; a folder holds at most 256 MiB.
         */
        EXFAT(32, 15, 2, 0, 256 * MIB),
        /** An index node of 256 B and a name entry per file: an estimate of our own, no source. */
        ESTIMATE(32, 32, 9, 0, Long.MAX_VALUE);

        private final int entryBytes;
        private final int charsPerEntry;
        private final int fixedEntries;
        private final int ownEntries;
        private final long maxBytes;

        Directory(int entryBytes, int charsPerEntry, int fixedEntries, int ownEntries, long maxBytes) {
            this.entryBytes = entryBytes;
            this.charsPerEntry = charsPerEntry;
            this.fixedEntries = fixedEntries;
            this.ownEntries = ownEntries;
            this.maxBytes = maxBytes;
        }

        long bytes(long files, int nameChars) {
            long perFile = (long) fixedEntries + (nameChars + charsPerEntry - 1) / charsPerEntry;
            return entryBytes * (ownEntries + files * perFile);
        }
    }

    public FileSystemShape {
        if (Long.bitCount(clusterBytes) != 1 || clusterBytes < 512 || clusterBytes > 32 * MIB) {
            throw new IllegalArgumentException(
                    "cluster of " + clusterBytes + " B: must be a power of two from 512 B to 32 MiB");
        }
        if (nameChars < 1 || nameChars > 255) {
            throw new IllegalArgumentException("file name of " + nameChars + " characters: must be 1 to 255");
        }
    }

    /**
     * The shape of a file system by its name.
     *
     * @param type {@code fat32}, {@code exfat} or any other
     * @param clusterBytes unit of allocation in bytes, a power of two from 512 B to 32 MiB
     * @throws IllegalArgumentException where the cluster size is impossible
     */
    public static FileSystemShape of(String type, long clusterBytes) {
        return switch (type.toLowerCase(Locale.ROOT)) {
            case "fat32" -> fat32(clusterBytes);
            case "exfat" -> exfat(clusterBytes);
            default ->
                new FileSystemShape(
                        type.toLowerCase(Locale.ROOT),
                        clusterBytes,
                        Long.MAX_VALUE,
                        Directory.ESTIMATE,
                        ASSUMED_NAME_CHARS);
        };
    }

    /** FAT32 with clusters of a size. */
    public static FileSystemShape fat32(long clusterBytes) {
        return new FileSystemShape(
                "fat32", clusterBytes, FileLimit.FAT32.maxFileBytes(), Directory.FAT32, ASSUMED_NAME_CHARS);
    }

    /** exFAT with clusters of a size; its file sizes have 64 bits. */
    public static FileSystemShape exfat(long clusterBytes) {
        return new FileSystemShape("exfat", clusterBytes, Long.MAX_VALUE, Directory.EXFAT, ASSUMED_NAME_CHARS);
    }

    /**
     * The cluster size a drive of a size usually comes with. Sources: Microsoft KB192322 (FAT32), KB140365 (exFAT).
     *
     * @param type {@code fat32}, {@code exfat}, or any other, for which 4 KiB is taken
     * @param volumeBytes size of the file system in bytes
     */
    public static FileSystemShape usual(String type, long volumeBytes) {
        return of(
                type,
                switch (type.toLowerCase(Locale.ROOT)) {
                    case "fat32" ->
                        volumeBytes < 8192 * MIB
                                ? 4 * KIB
                                : volumeBytes < 16384 * MIB ? 8 * KIB : volumeBytes < 32768 * MIB ? 16 * KIB : 32 * KIB;
                    case "exfat" -> volumeBytes <= 256 * MIB ? 4 * KIB : volumeBytes <= 32 * GIB ? 32 * KIB : 128 * KIB;
                    default -> 4 * KIB;
                });
    }

    /** Clusters a file takes. */
    public long clusters(long fileBytes) {
        return fileBytes / clusterBytes + (fileBytes % clusterBytes == 0 ? 0 : 1);
    }

    /** Room a folder with so many files takes, in bytes: whole clusters, at least one. */
    public long directoryBytes(long files) {
        return Math.max(1, clusters(directory.bytes(files, nameChars))) * clusterBytes;
    }

    /** False where one folder cannot list so many files. */
    public boolean fitsOneFolder(long files) {
        return directory.bytes(files, nameChars) <= directory.maxBytes;
    }
}
