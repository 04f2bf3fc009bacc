package tracksoak.bench.drive.find;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import tracksoak.bench.drive.find.FoundDrive.Place;

class FileSystemNamesTest {

    @Test
    void usesTheWordsOfTheTrade() {
        assertThat(FileSystemNames.word("exfat", null, 0)).isEqualTo("exfat");
        assertThat(FileSystemNames.word("fuse.exfat", null, 0)).isEqualTo("exfat");
        assertThat(FileSystemNames.word("fuseblk.exfat", null, 0)).isEqualTo("exfat");
        assertThat(FileSystemNames.word("exFAT", null, 0))
                .as("as Windows writes it")
                .isEqualTo("exfat");
        assertThat(FileSystemNames.word("ntfs3", null, 0)).isEqualTo("ntfs");
        assertThat(FileSystemNames.word("NTFS", null, 0)).isEqualTo("ntfs");
        assertThat(FileSystemNames.word("fuseblk.ntfs-3g", null, 0)).isEqualTo("ntfs");
        assertThat(FileSystemNames.word("hfs+", null, 0)).isEqualTo("hfsplus");
        assertThat(FileSystemNames.word("apfs", null, 0)).isEqualTo("apfs");
        assertThat(FileSystemNames.word("ext4", null, 0)).isEqualTo("ext4");
        assertThat(FileSystemNames.word("FAT32", null, 0)).isEqualTo("fat32");
    }

    @Test
    void settlesTheWidthOfFatByTheDeviceOrItsSizeOrNotAtAll() {
        assertThat(FileSystemNames.word("vfat", "fat16", 1 << 30)).isEqualTo("fat16");
        assertThat(FileSystemNames.word("vfat", "fat32", 1 << 30)).isEqualTo("fat32");
        assertThat(FileSystemNames.word("vfat", null, 64L << 30)).isEqualTo("fat32");
        assertThat(FileSystemNames.word("vfat", null, 1 << 30)).isNull();
        assertThat(FileSystemNames.word("msdos", "exfat", 1 << 30))
                .as("the two contradict")
                .isNull();
    }

    @Test
    void asksTheDeviceWhereAProgramServesTheFileSystem() {
        assertThat(FileSystemNames.word("fuseblk", "ntfs", 0)).isEqualTo("ntfs");
        assertThat(FileSystemNames.word("fuseblk", "exfat", 0)).isEqualTo("exfat");
        assertThat(FileSystemNames.word("fuseblk", null, 0)).isNull();
        assertThat(FileSystemNames.word("", null, 0)).isNull();
    }

    @Test
    void knowsWhatIsNoDrive() {
        for (String type :
                new String[] {"nfs", "nfs4", "cifs", "smb3", "9p", "virtiofs", "fuse.sshfs", "ceph", "smbfs"}) {
            assertThat(FileSystemNames.place(type)).as(type).isEqualTo(Place.NETWORK);
        }
        assertThat(FileSystemNames.place("tmpfs")).isEqualTo(Place.MEMORY);
        assertThat(FileSystemNames.place("overlay")).isEqualTo(Place.LAYERED);
        assertThat(FileSystemNames.place("zfs")).isEqualTo(Place.SPREAD);
        assertThat(FileSystemNames.place("cgroup2")).isEqualTo(Place.KERNEL);
        for (String type : new String[] {"ext4", "vfat", "fuseblk", "apfs", "fuse.exfat", "something-new"}) {
            assertThat(FileSystemNames.place(type)).as(type).isEqualTo(Place.DRIVE);
        }
    }
}
