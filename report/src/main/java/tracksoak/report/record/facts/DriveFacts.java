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
        return new Builder();
    }

    /** Starts from these. */
    public Builder but() {
        Builder builder = new Builder();
        builder.maker = maker;
        builder.model = model;
        builder.serial = serial;
        builder.sizeBytes = sizeBytes;
        builder.bus = bus;
        builder.linkMbps = linkMbps;
        builder.linkSuspect = linkSuspect;
        builder.removable = removable;
        builder.rotational = rotational;
        builder.system = system;
        builder.node = node;
        builder.mount = mount;
        builder.folder = folder;
        builder.fileSystem = fileSystem;
        builder.fileSystemBytes = fileSystemBytes;
        builder.freeBytes = freeBytes;
        builder.clusterBytes = clusterBytes;
        builder.port = port;
        builder.volume = volume;
        builder.temperatureC = temperatureC;
        builder.checkByHand = checkByHand;
        return builder;
    }

    /** Collects the parts by name; one thread. */
    public static final class Builder {

        private @Nullable String maker;
        private @Nullable String model;
        private @Nullable String serial;
        private @Nullable Long sizeBytes;
        private @Nullable String bus;
        private @Nullable Double linkMbps;
        private boolean linkSuspect;
        private @Nullable Boolean removable;
        private @Nullable Boolean rotational;
        private @Nullable Boolean system;
        private @Nullable String node;
        private @Nullable String mount;
        private String folder = "";
        private @Nullable String fileSystem;
        private @Nullable Long fileSystemBytes;
        private @Nullable Long freeBytes;
        private @Nullable Long clusterBytes;
        private Port port = Port.UNKNOWN;
        private Volume volume = Volume.UNKNOWN;
        private @Nullable Double temperatureC;
        private List<String> checkByHand = List.of();

        private Builder() {}

        public Builder maker(@Nullable String newMaker) {
            maker = newMaker;
            return this;
        }

        public Builder model(@Nullable String newModel) {
            model = newModel;
            return this;
        }

        public Builder serial(@Nullable String newSerial) {
            serial = newSerial;
            return this;
        }

        public Builder sizeBytes(@Nullable Long newSizeBytes) {
            sizeBytes = newSizeBytes;
            return this;
        }

        public Builder bus(@Nullable String newBus) {
            bus = newBus;
            return this;
        }

        public Builder linkMbps(@Nullable Double newLinkMbps) {
            linkMbps = newLinkMbps;
            return this;
        }

        public Builder linkSuspect(boolean newLinkSuspect) {
            linkSuspect = newLinkSuspect;
            return this;
        }

        public Builder removable(@Nullable Boolean newRemovable) {
            removable = newRemovable;
            return this;
        }

        public Builder rotational(@Nullable Boolean newRotational) {
            rotational = newRotational;
            return this;
        }

        public Builder system(@Nullable Boolean newSystem) {
            system = newSystem;
            return this;
        }

        public Builder node(@Nullable String newNode) {
            node = newNode;
            return this;
        }

        public Builder mount(@Nullable String newMount) {
            mount = newMount;
            return this;
        }

        public Builder folder(String newFolder) {
            folder = newFolder;
            return this;
        }

        public Builder fileSystem(@Nullable String newFileSystem) {
            fileSystem = newFileSystem;
            return this;
        }

        public Builder fileSystemBytes(@Nullable Long newFileSystemBytes) {
            fileSystemBytes = newFileSystemBytes;
            return this;
        }

        public Builder freeBytes(@Nullable Long newFreeBytes) {
            freeBytes = newFreeBytes;
            return this;
        }

        public Builder clusterBytes(@Nullable Long newClusterBytes) {
            clusterBytes = newClusterBytes;
            return this;
        }

        public Builder port(Port newPort) {
            port = newPort;
            return this;
        }

        public Builder volume(Volume newVolume) {
            volume = newVolume;
            return this;
        }

        public Builder temperatureC(@Nullable Double newTemperatureC) {
            temperatureC = newTemperatureC;
            return this;
        }

        public Builder checkByHand(List<String> newCheckByHand) {
            checkByHand = newCheckByHand;
            return this;
        }

        /** The facts. */
        public DriveFacts build() {
            return new DriveFacts(
                    maker,
                    model,
                    serial,
                    sizeBytes,
                    bus,
                    linkMbps,
                    linkSuspect,
                    removable,
                    rotational,
                    system,
                    node,
                    mount,
                    folder,
                    fileSystem,
                    fileSystemBytes,
                    freeBytes,
                    clusterBytes,
                    port,
                    volume,
                    temperatureC,
                    checkByHand);
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
