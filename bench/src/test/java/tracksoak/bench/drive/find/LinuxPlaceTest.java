package tracksoak.bench.drive.find;

import static org.assertj.core.api.Assertions.assertThat;

import org.jspecify.annotations.Nullable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.bench.drive.CapturedFiles;
import tracksoak.bench.drive.system.Mount;
import tracksoak.bench.drive.system.MountTable;
import tracksoak.bench.drive.system.Superblock;

/** Whether a volume was left in order, as far as that can be told. */
class LinuxPlaceTest {

    private static final String DISK = "/sys/devices/usb2/2-1/2-1:1.0/host6/target6:0:0/6:0:0:0/block/sdb";
    private static final String ATTACHED = "<5>[  9.1] sd 6:0:0:0: [sdb] Attached SCSI removable disk\n";

    @ParameterizedTest(name = "{0}")
    @CsvSource(textBlock = """
                    not mounted; not marked,                                          ,   ,  false,          , false
                    not mounted; marked,                                              ,   ,  true,           , true
                    FAT mounted for reading; marked,                              vfat, ro,  true,           , true
                    FAT mounted for writing and marked by that,                   vfat, rw,  true,  in order , false
                    the same where the log may not be read,                       vfat, rw,  true,           ,
                    FAT that the kernel found marked,                             vfat, rw,  true,     dirty , true
                    exFAT written since the last sync,                           exfat, rw,  true,  in order , false
                    the same where the log may not be read,                      exfat, rw,  true,           ,
                    exFAT that the kernel found marked,                          exfat, rw,  true,     dirty , true
                    exFAT that the kernel found marked and plugged in again,     exfat, rw,  true, in order again , false
                    exFAT not marked,                                            exfat, rw, false,           , false
                    exFAT served by a program that marks it while it is mounted, fuseblk, rw, true, in order ,
                    no flag to be read,                                           ext4, rw,      ,           ,
                    """)
    void isLeftInOrder(
            String what,
            @Nullable String type,
            @Nullable String access,
            @Nullable Boolean marked,
            @Nullable String log,
            @Nullable Boolean dirty) {
        CapturedFiles files = new CapturedFiles().text(DISK + "/sdb1/partition", "1");
        if (log != null) {
            String found = "<4>[ 10.2] " + ("vfat".equals(type) ? "FAT" : "exFAT")
                    + "-fs (sdb1): Volume was not properly unmounted. Some data may be corrupt. Please run fsck.\n";
            files.kernelLog(ATTACHED + (log.equals("in order") ? "" : found) + (log.endsWith("again") ? ATTACHED : ""));
        }
        Mount mount = type == null
                ? null
                : MountTable.of(files.text(
                                MountTable.FILE,
                                "70 1 8:17 / /media/crew " + access + " - " + type + " /dev/sdb1 " + access + "\n"))
                        .of("/media/crew")
                        .orElseThrow();
        Superblock superblock = new Superblock("exfat", 131_072, marked, null);

        assertThat(new LinuxPlace(files)
                        .volume(DISK + "/sdb1", DISK, mount, superblock, null)
                        .dirty())
                .as(what)
                .isEqualTo(dirty);
    }
}
