package tracksoak.report.record.facts;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The drive under test as the computer saw it. Strings come from hardware and may hold anything; null means unknown.
 *
 * @param maker maker as the drive reports it
 * @param model model as the drive reports it
 * @param serial serial number as the drive reports it
 * @param sizeBytes size of the whole drive in bytes
 * @param bus {@code usb}, {@code sata}, {@code nvme}, {@code mmc}, {@code virtual}, {@code simulated}
 * @param linkMbps link speed in Mbit/s
 * @param linkSuspect true where the system prints the same figure for "unknown"
 * @param removable whether the drive is meant to be taken out
 * @param rotational whether it is a spinning disk
 * @param system whether it holds the running system
 * @param node name of the device, for example {@code sdb}
 * @param mount where its file system is mounted
 * @param folder the folder the run wrote in
 * @param fileSystem type in lower case: {@code fat32}, {@code exfat}, {@code ext4}
 * @param fileSystemBytes size of the file system in bytes
 * @param freeBytes free room before the run in bytes
 * @param clusterBytes allocation unit of the file system in bytes
 * @param checkByHand what the computer could not tell, one sentence each
 */
public record DriveFacts(
        @Nullable String maker,
        @Nullable String model,
        @Nullable String serial,
        @Nullable Long sizeBytes,
        @Nullable String bus,
        @Nullable Double linkMbps,
        boolean linkSuspect,
        @Nullable Boolean removable,
        @Nullable Boolean rotational,
        @Nullable Boolean system,
        @Nullable String node,
        @Nullable String mount,
        String folder,
        @Nullable String fileSystem,
        @Nullable Long fileSystemBytes,
        @Nullable Long freeBytes,
        @Nullable Long clusterBytes,
        List<String> checkByHand) {

    public DriveFacts {
        checkByHand = List.copyOf(checkByHand);
    }
}
