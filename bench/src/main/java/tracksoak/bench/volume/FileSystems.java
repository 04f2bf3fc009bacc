package tracksoak.bench.volume;

/** Tells by the first sector of a volume which file system it is. */
final class FileSystems {

    private FileSystems() {}

    /** Whether the sector begins an exFAT volume. */
    static boolean exfat(Bytes boot) {
        return boot.holds(3, "EXFAT   ");
    }

    /** Whether it begins a FAT volume of any width: its figures make sense, and a jump stands in front. */
    static boolean fat(Bytes boot) {
        int sector = boot.u16(11);
        int perCluster = boot.u8(13);
        return boot.u16(510) == 0xAA55
                && (boot.u8(0) == 0xEB || boot.u8(0) == 0xE9)
                && sector >= 512
                && sector <= 4096
                && Integer.bitCount(sector) == 1
                && Integer.bitCount(perCluster) == 1
                && boot.u16(14) != 0
                && (boot.u8(16) == 1 || boot.u8(16) == 2);
    }

    /** Whether it begins any file system that lies on a device without a partition table. */
    static boolean begins(Bytes boot) {
        return exfat(boot) || fat(boot) || boot.holds(3, "NTFS    ");
    }
}
