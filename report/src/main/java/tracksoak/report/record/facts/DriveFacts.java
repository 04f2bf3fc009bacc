package tracksoak.report.record.facts;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.RecordParts;

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
 * @param mount where its file system is mounted; in a record only the last name of it
 * @param folder the folder the run wrote in; in a record only its own name
 * @param fileSystem type in lower case: {@code fat32}, {@code exfat}, {@code ext4}
 * @param fileSystemBytes size of the file system in bytes
 * @param freeBytes free room before the run in bytes
 * @param clusterBytes allocation unit of the file system in bytes
 * @param port where and how it is plugged in
 * @param volume the volume on it
 * @param temperatureC temperature before the run in °C, where the system has it
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
        Port port,
        Volume volume,
        @Nullable Double temperatureC,
        List<String> checkByHand) {

    public DriveFacts {
        checkByHand = List.copyOf(checkByHand);
    }

    /** Starts what is known of a drive. What is not said stays unknown. */
    public static Builder builder() {
        return new Builder(RecordParts.empty(DriveFacts.class))
                .folder("")
                .port(Port.UNKNOWN)
                .volume(Volume.UNKNOWN);
    }

    /** Starts from these. */
    public Builder but() {
        return new Builder(RecordParts.of(this));
    }

    /** Collects the parts by name; one thread. */
    public static final class Builder {

        private final RecordParts<DriveFacts> parts;

        private Builder(RecordParts<DriveFacts> parts) {
            this.parts = parts;
        }

        private Builder with(String part, @Nullable Object value) {
            parts.with(part, value);
            return this;
        }

        public Builder maker(@Nullable String maker) {
            return with("maker", maker);
        }

        public Builder model(@Nullable String model) {
            return with("model", model);
        }

        public Builder serial(@Nullable String serial) {
            return with("serial", serial);
        }

        public Builder sizeBytes(@Nullable Long sizeBytes) {
            return with("sizeBytes", sizeBytes);
        }

        public Builder bus(@Nullable String bus) {
            return with("bus", bus);
        }

        public Builder linkMbps(@Nullable Double linkMbps) {
            return with("linkMbps", linkMbps);
        }

        public Builder linkSuspect(boolean linkSuspect) {
            return with("linkSuspect", linkSuspect);
        }

        public Builder removable(@Nullable Boolean removable) {
            return with("removable", removable);
        }

        public Builder rotational(@Nullable Boolean rotational) {
            return with("rotational", rotational);
        }

        public Builder system(@Nullable Boolean system) {
            return with("system", system);
        }

        public Builder node(@Nullable String node) {
            return with("node", node);
        }

        public Builder mount(@Nullable String mount) {
            return with("mount", mount);
        }

        public Builder folder(String folder) {
            return with("folder", folder);
        }

        public Builder fileSystem(@Nullable String fileSystem) {
            return with("fileSystem", fileSystem);
        }

        public Builder fileSystemBytes(@Nullable Long fileSystemBytes) {
            return with("fileSystemBytes", fileSystemBytes);
        }

        public Builder freeBytes(@Nullable Long freeBytes) {
            return with("freeBytes", freeBytes);
        }

        public Builder clusterBytes(@Nullable Long clusterBytes) {
            return with("clusterBytes", clusterBytes);
        }

        public Builder port(Port port) {
            return with("port", port);
        }

        public Builder volume(Volume volume) {
            return with("volume", volume);
        }

        public Builder temperatureC(@Nullable Double temperatureC) {
            return with("temperatureC", temperatureC);
        }

        public Builder checkByHand(List<String> checkByHand) {
            return with("checkByHand", checkByHand);
        }

        /** The facts. */
        public DriveFacts build() {
            return parts.make();
        }
    }

    /**
     * Where and how a drive is plugged in, as the computer saw it. Strings come from hardware and may hold anything; null means
     * unknown.
     *
     * @param usbId vendor and product of the USB device, four hexadecimal digits each: {@code 1d6b:0002}
     * @param firmware revision of the drive's firmware
     * @param driver how it is driven: {@code usb-storage} (bulk-only), {@code uas}, {@code mmcblk}
     * @param path port by port from the computer: {@code 2-1.4}
     * @param besides what else hangs on the same hub, one text each
     */
    public record Port(
            @Nullable String usbId,
            @Nullable String firmware,
            @Nullable String driver,
            @Nullable String path,
            List<String> besides) {

        /** Nothing is known. */
        public static final Port UNKNOWN = new Port(null, null, null, null, List.of());

        public Port {
            besides = List.copyOf(besides);
        }
    }

    /**
     * The volume a run writes to, besides its type and sizes. Strings come from the drive and may hold anything; null means
     * unknown.
     *
     * @param scheme how the drive is parted: {@code mbr}, {@code gpt}, or {@code none} where the volume takes all of it
     * @param offsetBytes where the volume begins on the drive, in bytes
     * @param label what the volume is called
     * @param dirty whether it says that it was not unmounted in order, or that errors were met
     * @param options it is mounted with, parted by commas
     */
    public record Volume(
            @Nullable String scheme,
            @Nullable Long offsetBytes,
            @Nullable String label,
            @Nullable Boolean dirty,
            @Nullable String options) {

        /** Nothing is known. */
        public static final Volume UNKNOWN = new Volume(null, null, null, null, null);
    }
}
