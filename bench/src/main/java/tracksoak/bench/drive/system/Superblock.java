package tracksoak.bench.drive.system;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * What the first bytes of a device say about its file system. Sources: Microsoft exFAT specification 1.00 §3.1 (exFAT);
 * Microsoft fatgen103 (FAT, the width by the count of clusters), from memory; the others' magic numbers as in the
 * kernel's headers, from memory.
 *
 * @param type {@code fat12}, {@code fat16}, {@code fat32}, {@code exfat}, {@code ntfs}, {@code ext4}… or {@code luks},
 *     {@code lvm}, {@code swap}
 * @param dirty whether it says that it was not unmounted in order, or that errors were met; null if it does not say
 * @param label what it is called, null if that is not told here
 * @param clusterBytes allocation unit in bytes, 0 if not told here
 */
public record Superblock(
        String type,
        long clusterBytes,
        @Nullable Boolean dirty,
        @Nullable String label) {

    Superblock(String type, long clusterBytes) {
        this(type, clusterBytes, null, null);
    }

    /** As many bytes from the start as {@link #of} looks at. */
    public static final int LENGTH = 68 << 10;

    private static final int LARGEST_CLUSTER = 32 << 20;

    /** Directory entries of exFAT, in bytes, and the type of that with the label. */
    private static final int ENTRY = 32;

    private static final int EXFAT_LABEL = 0x83;

    /** Microsoft, exFAT file system specification, VolumeFlags: bit 1 dirty, bit 2 media failure. */
    private static final int EXFAT_DIRTY = 0b110;

    /** Microsoft, FAT: General Overview of On-Disk Format 1.03, FAT[1]: unmounted in order, and no error met. */
    private static final long FAT32_IN_ORDER = 0x0C00_0000L;

    private static final int FAT16_IN_ORDER = 0xC000;

    /** Recognises a file system; null if none is. Whatever the bytes hold, it throws nothing. */
    public static @Nullable Superblock of(byte[] head) {
        ByteBuffer bytes = ByteBuffer.wrap(head).order(ByteOrder.LITTLE_ENDIAN);
        if (text(bytes, 3, "EXFAT   ")) {
            return new Superblock(
                    "exfat", shift(u8(bytes, 108) + u8(bytes, 109)), (u16(bytes, 106) & EXFAT_DIRTY) != 0, null);
        }
        if (text(bytes, 3, "NTFS    ")) {
            int factor = u8(bytes, 13);
            return new Superblock("ntfs", cluster(u16(bytes, 11) * (factor > 128 ? shift(256 - factor) : factor)));
        }
        if (text(bytes, 0, "LUKS\u00ba\u00be")) {
            return new Superblock("luks", 0);
        }
        if (text(bytes, 0, "XFSB")) {
            return new Superblock("xfs", cluster(Integer.reverseBytes((int) u32(bytes, 4))));
        }
        if (text(bytes, 0, "hsqs")) {
            return new Superblock("squashfs", 0);
        }
        if (text(bytes, 32, "NXSB")) {
            return new Superblock("apfs", cluster(u32(bytes, 36)));
        }
        if (text(bytes, 512, "LABELONE")) {
            return new Superblock("lvm", 0);
        }
        if (text(bytes, 1024, "H+") || text(bytes, 1024, "HX")) {
            return new Superblock("hfsplus", cluster(Integer.reverseBytes((int) u32(bytes, 1064))));
        }
        if (u16(bytes, 1080) == 0xEF53) {
            return new Superblock(ext(u32(bytes, 1116), u32(bytes, 1120)), shift(10 + (int) (u32(bytes, 1048) & 31)));
        }
        if (u32(bytes, 1024) == 0xF2F52010L) {
            return new Superblock("f2fs", 4096);
        }
        if (text(bytes, 4086, "SWAPSPACE2")) {
            return new Superblock("swap", 0);
        }
        if (text(bytes, 32769, "CD001")) {
            return new Superblock("iso9660", 2048);
        }
        if (text(bytes, 65600, "_BHRfS_M")) {
            return new Superblock("btrfs", cluster(u32(bytes, 65680)));
        }
        return fat(bytes);
    }

    /**
     * What tells a FAT, exFAT or NTFS from any other, as Linux's device manager writes it: {@code 1A2B-3C4D}; null of others, and
     * where there is none.
     */
    public static @Nullable String idIn(byte[] head) {
        ByteBuffer bytes = ByteBuffer.wrap(head).order(ByteOrder.LITTLE_ENDIAN);
        if (text(bytes, 3, "NTFS    ")) {
            long high = u32(bytes, 76);
            long low = u32(bytes, 72);
            return high == 0 && low == 0 ? null : String.format(Locale.ROOT, "%08X%08X", high, low);
        }
        Superblock found = text(bytes, 3, "EXFAT   ") ? null : fat(bytes);
        long id = text(bytes, 3, "EXFAT   ")
                ? u32(bytes, 100)
                : found == null ? 0 : u32(bytes, found.type().equals("fat32") ? 67 : 39);
        return id == 0 ? null : String.format(Locale.ROOT, "%04X-%04X", id >> 16, id & 0xFFFF);
    }

    /** Where the root directory of an exFAT begins, in bytes, by its first bytes; 0 of any other file system. */
    public static long exfatRootAt(byte[] head) {
        ByteBuffer bytes = ByteBuffer.wrap(head).order(ByteOrder.LITTLE_ENDIAN);
        int sectorShift = u8(bytes, 108);
        int clusterShift = u8(bytes, 109);
        if (!text(bytes, 3, "EXFAT   ") || sectorShift < 9 || sectorShift > 12 || clusterShift > 25 - sectorShift) {
            return 0;
        }
        long clusters = Math.max(0, u32(bytes, 96) - 2);
        return (u32(bytes, 88) + (clusters << clusterShift)) << sectorShift;
    }

    /** The same with the label that the beginning of an exFAT's root directory holds (entry type 0x83). */
    public Superblock labelled(byte[] root) {
        ByteBuffer entries = ByteBuffer.wrap(root).order(ByteOrder.LITTLE_ENDIAN);
        for (int at = 0; at + ENTRY <= root.length && root[at] != 0; at += ENTRY) {
            int letters = u8(entries, at + 1);
            if (u8(entries, at) == EXFAT_LABEL && letters > 0 && letters <= 11) {
                String label = new String(root, at + 2, 2 * letters, StandardCharsets.UTF_16LE).strip();
                return new Superblock(type, clusterBytes, dirty, label.isEmpty() ? null : label);
            }
        }
        return this;
    }

    private static String ext(long compatible, long incompatible) {
        // extents, 64 bit or flexible groups make it ext4; a journal alone ext3
        return (incompatible & 0x2C0) != 0 ? "ext4" : (compatible & 0x4) != 0 ? "ext3" : "ext2";
    }

    private static @Nullable Superblock fat(ByteBuffer bytes) {
        int sector = u16(bytes, 11);
        int perCluster = u8(bytes, 13);
        int reserved = u16(bytes, 14);
        int copies = u8(bytes, 16);
        if (u16(bytes, 510) != 0xAA55
                || Integer.bitCount(sector) != 1
                || sector < 512
                || sector > 4096
                || Integer.bitCount(perCluster) != 1
                || reserved == 0
                || copies == 0
                || copies > 2) {
            return null;
        }
        long rootSectors = (u16(bytes, 17) * 32L + sector - 1) / sector;
        long fatSectors = u16(bytes, 22) != 0 ? u16(bytes, 22) : u32(bytes, 36);
        long sectors = u16(bytes, 19) != 0 ? u16(bytes, 19) : u32(bytes, 32);
        long clusters = (sectors - reserved - copies * fatSectors - rootSectors) / perCluster;
        if (fatSectors == 0 || clusters <= 0) {
            return null;
        }
        String type = clusters < 4085 ? "fat12" : clusters < 65_525 ? "fat16" : "fat32";
        return new Superblock(
                type,
                cluster((long) sector * perCluster),
                fatDirty(bytes, type, reserved * sector),
                fatLabel(bytes, type.equals("fat32") ? 71 : 43));
    }

    /** Of the second entry, which holds the flags, and of the state some systems keep in the boot sector besides. */
    private static @Nullable Boolean fatDirty(ByteBuffer bytes, String type, int fatAt) {
        boolean wide = type.equals("fat32");
        if (type.equals("fat12") || fatAt + 8 > bytes.limit()) {
            return null;
        }
        boolean flagged = wide
                ? (u32(bytes, fatAt + 4) & FAT32_IN_ORDER) != FAT32_IN_ORDER
                : (u16(bytes, fatAt + 2) & FAT16_IN_ORDER) != FAT16_IN_ORDER;
        return flagged || (u8(bytes, wide ? 65 : 37) & 1) != 0;
    }

    private static @Nullable String fatLabel(ByteBuffer bytes, int at) {
        if (at + 11 > bytes.limit()) {
            return null;
        }
        byte[] name = new byte[11];
        bytes.get(at, name);
        String label = new String(name, StandardCharsets.ISO_8859_1).strip();
        return label.isEmpty() || label.equals("NO NAME") ? null : label;
    }

    private static long shift(int power) {
        return power < 0 || power > 25 ? 0 : cluster(1L << power);
    }

    private static long cluster(long bytes) {
        return bytes < 512 || bytes > LARGEST_CLUSTER ? 0 : bytes;
    }

    private static boolean text(ByteBuffer bytes, int at, String text) {
        byte[] wanted = text.getBytes(StandardCharsets.ISO_8859_1);
        if (at + wanted.length > bytes.limit()) {
            return false;
        }
        return bytes.slice(at, wanted.length).equals(ByteBuffer.wrap(wanted));
    }

    private static int u8(ByteBuffer bytes, int at) {
        return at < bytes.limit() ? bytes.get(at) & 0xFF : 0;
    }

    private static int u16(ByteBuffer bytes, int at) {
        return at + 2 <= bytes.limit() ? bytes.getShort(at) & 0xFFFF : 0;
    }

    private static long u32(ByteBuffer bytes, int at) {
        return at + 4 <= bytes.limit() ? bytes.getInt(at) & 0xFFFF_FFFFL : 0;
    }
}
