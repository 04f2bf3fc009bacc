package tracksoak.bench.drive.find;

import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.FoundDrive.Place;

/** A system's names of file systems, turned into the words of the trade, and what kind of place each is. */
final class FileSystemNames {

    private static final Set<String> NETWORKS = Set.of(
            "nfs",
            "nfs4",
            "cifs",
            "smb3",
            "smbfs",
            "9p",
            "virtiofs",
            "afs",
            "ceph",
            "coda",
            "lustre",
            "ncpfs",
            "webdav",
            "davfs",
            "afpfs",
            "vboxsf",
            "prl_fs",
            "sshfs",
            "rclone",
            "s3fs",
            "glusterfs",
            "vmhgfs-fuse",
            "davfs2",
            "gvfsd-fuse",
            "google-drive-ocamlfuse",
            "curlftpfs");
    private static final Set<String> MEMORIES = Set.of("tmpfs", "ramfs", "devtmpfs", "hugetlbfs");
    private static final Set<String> LAYERS = Set.of(
            "overlay", "overlayfs", "aufs", "unionfs", "mergerfs", "ecryptfs", "fuse-overlayfs", "encfs", "gocryptfs");
    /** Made of whatever drives were given to them, of which the mount table names none. */
    private static final Set<String> POOLS = Set.of("zfs");

    private static final Set<String> KERNELS = Set.of(
            "proc",
            "sysfs",
            "cgroup",
            "cgroup2",
            "devpts",
            "mqueue",
            "debugfs",
            "tracefs",
            "securityfs",
            "pstore",
            "bpf",
            "configfs",
            "fusectl",
            "binfmt_misc",
            "autofs",
            "efivarfs",
            "selinuxfs",
            "rpc_pipefs",
            "nsfs");
    private static final Map<String, String> WORDS = Map.ofEntries(
            Map.entry("vfat", "fat"),
            Map.entry("msdos", "fat"),
            Map.entry("fusefat", "fat"),
            Map.entry("exfat-fuse", "exfat"),
            Map.entry("texfat", "exfat"),
            Map.entry("ntfs3", "ntfs"),
            Map.entry("ntfs-3g", "ntfs"),
            Map.entry("ntfs3g", "ntfs"),
            Map.entry("hfs+", "hfsplus"),
            Map.entry("ext2fs", "ext2"));

    private FileSystemNames() {}

    /** The kind of place a file system is, by its type. */
    static Place place(String type) {
        String plain = plain(type);
        if (NETWORKS.contains(plain)) {
            return Place.NETWORK;
        }
        if (MEMORIES.contains(plain)) {
            return Place.MEMORY;
        }
        if (LAYERS.contains(plain)) {
            return Place.LAYERED;
        }
        if (POOLS.contains(plain)) {
            return Place.SPREAD;
        }
        return KERNELS.contains(plain) ? Place.KERNEL : Place.DRIVE;
    }

    /**
     * The trade's word for a type. Types that leave it open, FAT of unknown width and {@code fuseblk}, are settled by
     * what the device itself says, if that could be read.
     *
     * @param type as the system names it
     * @param found what the device says, null if it could not be read
     * @param bytes size of the file system in bytes, 0 if unknown
     * @return null if it cannot be told
     */
    static @Nullable String word(String type, @Nullable String found, long bytes) {
        String plain = plain(type);
        String word = WORDS.getOrDefault(plain, plain);
        if (word.equals("fat")) {
            // FAT16 ends at 4 GiB even with its largest clusters
            return found != null && found.startsWith("fat") ? found : bytes > 4L << 30 ? "fat32" : null;
        }
        if (word.equals("fuseblk") || word.equals("fuse") || word.isEmpty()) {
            return found;
        }
        return word;
    }

    /** Lower case, without the prefix of file systems that are served by a program. */
    private static String plain(String type) {
        String lower = type.toLowerCase(Locale.ROOT).strip();
        return lower.startsWith("fuse.")
                ? lower.substring(5)
                : lower.startsWith("fuseblk.") ? lower.substring(8) : lower;
    }
}
