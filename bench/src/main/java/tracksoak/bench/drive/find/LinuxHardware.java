package tracksoak.bench.drive.find;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.system.BlockNodes;
import tracksoak.bench.drive.system.SystemFiles;
import tracksoak.profiles.base.Inert;

/** Reads a whole disk's description from Linux's {@code /sys}: the disk's own folder and those it lies in. */
final class LinuxHardware {

    private static final Pattern GIGABITS = Pattern.compile("(\\d{1,4}(?:\\.\\d{1,3})?) Gbps");
    private static final Pattern TRANSFERS = Pattern.compile("(\\d{1,4}(?:\\.\\d{1,3})?) GT/s.*");
    private static final Pattern ATA = Pattern.compile("(.*/ata\\d+)/.*");

    /** Parts of a disk's path that tell how it is attached; the first that is found counts. */
    private static final List<Map.Entry<Pattern, String>> BUSES = List.of(
            Map.entry(Pattern.compile("/usb\\d+/"), "usb"),
            Map.entry(Pattern.compile("/mmc_host/"), "mmc"),
            Map.entry(Pattern.compile("/nvme(-subsystem)?/"), "nvme"),
            Map.entry(Pattern.compile("/ata\\d+/"), "sata"),
            Map.entry(Pattern.compile("/fw\\d+"), "firewire"),
            Map.entry(Pattern.compile("/(devices/virtual|virtio\\d+|vbd-\\d+|VMBUS:\\w+)/"), "virtual"),
            Map.entry(Pattern.compile("/target\\d+:"), "scsi"));

    /** Beyond this a sensor is broken, in thousandths of a °C. */
    private static final long HOTTEST = 200_000;

    private final SystemFiles files;

    LinuxHardware(SystemFiles files) {
        this.files = files;
    }

    /**
     * Describes a disk.
     *
     * @param disk its folder under {@code /sys}, links resolved
     */
    Hardware of(String disk) {
        String bus = bus(disk);
        return switch (bus) {
            case "usb" -> usb(disk);
            case "mmc" -> card(disk);
            case "nvme" ->
                plain(
                        disk,
                        bus,
                        null,
                        word(disk + "/device/model"),
                        word(disk + "/device/serial"),
                        pci(disk),
                        List.of());
            case "sata", "scsi", "firewire" -> scsi(disk, bus);
            default -> virtual(disk);
        };
    }

    /**
     * The disk's own temperature in °C, null where the system has none (Linux, Documentation/hwmon/drivetemp.rst and
     * sysfs-interface.rst). The disk itself is asked, so a call takes as long as it likes.
     */
    @Nullable
    Double temperatureC(String disk) {
        for (String at : List.of(disk + "/device", disk + "/device/hwmon")) {
            for (String name : files.names(at)) {
                Long thousandths = name.matches("hwmon\\d+") ? files.number(at + "/" + name + "/temp1_input") : null;
                if (thousandths != null && thousandths > -HOTTEST && thousandths < HOTTEST) {
                    return thousandths / 1000.0;
                }
            }
        }
        return null;
    }

    /** How a disk is attached, by the folders its own lies in. */
    static String bus(String disk) {
        for (Map.Entry<Pattern, String> bus : BUSES) {
            if (bus.getKey().matcher(disk).find()) {
                return bus.getValue();
            }
        }
        return "virtual";
    }

    private Hardware usb(String disk) {
        String device = usbDevice(disk);
        Double link = null;
        for (String at = device; at != null; at = usbDevice(at)) {
            Double speed = decimal(files.word(at + "/speed"));
            link = link == null || (speed != null && speed < link) ? speed : link;
        }
        List<String> hints = new ArrayList<>();
        boolean suspect = link != null && link == 12;
        if (suspect) {
            hints.add("The system gives the link speed as 12 Mbit/s, which it also prints when it does not know:"
                    + " check port and cable.");
        }
        Boolean spins = flag(disk + "/queue/rotational");
        if (Objects.equals(spins, true)) {
            // the kernel takes every USB drive for a spinning one unless it says otherwise
            spins = null;
            hints.add("Over USB the system cannot tell a stick or SSD from a spinning disk.");
        }
        boolean fixed = "fixed".equals(device == null ? null : files.word(device + "/removable"));
        return new Hardware(
                first(device == null ? null : word(device + "/manufacturer"), word(disk + "/device/vendor")),
                first(device == null ? null : word(device + "/product"), word(disk + "/device/model")),
                first(device == null ? null : word(device + "/serial"), page80(disk)),
                size(disk),
                "usb",
                link,
                suspect,
                !fixed,
                spins,
                hints);
    }

    /** The next USB device above, by the files only a device has; null above the root hub. */
    private @Nullable String usbDevice(String below) {
        for (int slash = below.lastIndexOf('/'); slash > 0; slash = below.lastIndexOf('/', slash - 1)) {
            String at = below.substring(0, slash);
            if (files.text(at + "/speed") != null && files.text(at + "/idVendor") != null) {
                return at;
            }
        }
        return null;
    }

    private Hardware card(String disk) {
        String type = files.word(disk + "/device/type");
        boolean soldered = "MMC".equals(type);
        return new Hardware(
                null,
                word(disk + "/device/name"),
                word(disk + "/device/serial"),
                size(disk),
                "mmc",
                null,
                false,
                !soldered,
                false,
                List.of(
                        "A card names its maker by a number only: read maker and speed class off the card.",
                        "The system does not tell the speed of a card's link: check what the reader can do."));
    }

    private Hardware scsi(String disk, String bus) {
        String maker = word(disk + "/device/vendor");
        return plain(
                disk,
                bus,
                "ATA".equals(maker) ? null : maker,
                word(disk + "/device/model"),
                page80(disk),
                bus.equals("sata") ? ataLink(disk) : null,
                List.of());
    }

    private Hardware virtual(String disk) {
        String backing = files.word(disk + "/loop/backing_file");
        List<String> hints = backing == null
                ? List.of("A virtual drive: its figures are those of what lies behind it.")
                : List.of("A loop device on the file " + Inert.text(backing)
                        + ": its figures are those of the drive that file lies on.");
        return plain(disk, "virtual", null, null, word(disk + "/serial"), null, hints);
    }

    private Hardware plain(
            String disk,
            String bus,
            @Nullable String maker,
            @Nullable String model,
            @Nullable String serial,
            @Nullable Double link,
            List<String> hints) {
        return new Hardware(
                maker,
                model,
                serial,
                size(disk),
                bus,
                link,
                false,
                flag(disk + "/removable"),
                flag(disk + "/queue/rotational"),
                hints);
    }

    private @Nullable Double ataLink(String disk) {
        Matcher port = ATA.matcher(disk);
        if (!port.matches()) {
            return null;
        }
        for (String link : files.names(port.group(1))) {
            if (link.startsWith("link")) {
                String speed = files.word(port.group(1) + "/" + link + "/ata_link/" + link + "/sata_spd");
                Matcher matcher = GIGABITS.matcher(speed == null ? "" : speed);
                if (matcher.matches()) {
                    return Double.parseDouble(matcher.group(1)) * 1000;
                }
            }
        }
        return null;
    }

    private @Nullable Double pci(String disk) {
        for (int slash = disk.lastIndexOf('/'); slash > 0; slash = disk.lastIndexOf('/', slash - 1)) {
            String at = disk.substring(0, slash);
            String speed = files.word(at + "/current_link_speed");
            Long lanes = files.number(at + "/current_link_width");
            if (speed != null && lanes != null && lanes >= 1 && lanes <= 32) {
                Matcher matcher = TRANSFERS.matcher(speed);
                return matcher.matches() ? Double.parseDouble(matcher.group(1)) * 1000 * lanes : null;
            }
        }
        return null;
    }

    /** The serial number as the SCSI unit gives it, behind four bytes of header. */
    private @Nullable String page80(String disk) {
        String page = files.text(disk + "/device/vpd_pg80");
        return page == null || page.length() <= 4 ? null : Inert.kept(page.substring(4));
    }

    private @Nullable Long size(String disk) {
        Long sectors = files.number(disk + "/size");
        return sectors == null || sectors <= 0 || sectors > Long.MAX_VALUE / BlockNodes.SECTOR
                ? null
                : Long.valueOf(sectors * BlockNodes.SECTOR);
    }

    private @Nullable Boolean flag(String path) {
        String word = files.word(path);
        return "1".equals(word) ? Boolean.TRUE : "0".equals(word) ? Boolean.FALSE : null;
    }

    private @Nullable String word(String path) {
        return Inert.kept(files.text(path));
    }

    private static @Nullable String first(@Nullable String one, @Nullable String other) {
        return one == null ? other : one;
    }

    private static @Nullable Double decimal(@Nullable String text) {
        if (text == null || !text.matches("\\d{1,7}(\\.\\d{1,3})?")) {
            return null;
        }
        return Double.valueOf(text);
    }
}
