package tracksoak.bench.drive.find;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A whole disk as the system describes it; null means unknown.
 *
 * @param maker as the drive says
 * @param model as the drive says
 * @param serial as the drive says
 * @param sizeBytes size of the whole disk in bytes
 * @param bus {@code usb}, {@code sata}, {@code nvme}, {@code mmc}, {@code scsi}, {@code firewire}, {@code virtual}
 * @param linkMbps negotiated link speed in Mbit/s, as signalled
 * @param linkSuspect true where the system prints the same figure for "unknown"
 * @param removable whether it is meant to be taken out
 * @param rotational whether it spins
 * @param hints what a person should know or look up, one sentence each
 */
record Hardware(
        @Nullable String maker,
        @Nullable String model,
        @Nullable String serial,
        @Nullable Long sizeBytes,
        @Nullable String bus,
        @Nullable Double linkMbps,
        boolean linkSuspect,
        @Nullable Boolean removable,
        @Nullable Boolean rotational,
        List<String> hints) {

    Hardware {
        hints = List.copyOf(hints);
    }

    /** Nothing is known. */
    static Hardware unknown() {
        return new Hardware(null, null, null, null, null, null, false, null, null, List.of());
    }
}
