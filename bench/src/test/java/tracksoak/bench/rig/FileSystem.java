package tracksoak.bench.rig;

import java.nio.file.Path;
import java.util.Locale;

/** The file systems the rig can make and mount here. */
public enum FileSystem {
    /** In the kernel: direct I/O. Turns read-only on an error of its own, as distributions set it up. */
    EXT4 {
        @Override
        void make(Path device) {
            Host.run(
                    "mkfs.ext4",
                    "-q",
                    "-b",
                    "4096",
                    "-m",
                    "0",
                    "-J",
                    "size=8",
                    "-E",
                    "nodiscard,lazy_itable_init=0,lazy_journal_init=0",
                    device.toString());
        }

        @Override
        void mend(Path device) {
            Host.attempt(20, "e2fsck", "-p", device.toString());
        }

        @Override
        void mount(Path device, Path point) {
            Host.run("mount", "-t", "ext4", "-o", "errors=remount-ro", device.toString(), point.toString());
        }
    },
    /** Through FUSE on the block device: write-through; what is read is cached until the caches are dropped. */
    EXFAT {
        @Override
        void make(Path device) {
            Host.run("mkfs.exfat", device.toString());
        }

        @Override
        void mount(Path device, Path point) {
            Host.run("mount.exfat-fuse", device.toString(), point.toString());
        }
    },
    /**
     * Through FUSE on the backend's file itself, for on a block device it would leave everything in the page cache; the
     * kernel does not know on which device it lies.
     */
    FAT32 {
        @Override
        void make(Path device) {
            Host.run("mkfs.vfat", "-F", "32", device.toString());
        }

        @Override
        void mount(Path device, Path point) {
            Host.run("fusefat", "-o", "rw+", device.toString(), point.toString());
        }
    };

    /** Mends it after the drive was pulled, as a system does by itself before it mounts it. */
    void mend(Path device) {}

    /** Makes an empty file system on a block device or image. */
    abstract void make(Path device);

    /** Mounts it. */
    abstract void mount(Path device, Path point);

    /** As records name it. */
    String named() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Whether it lies on the block device; else on the backend's file. */
    boolean onDevice() {
        return this != FAT32;
    }
}
