package tracksoak.bench.tray;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.system.SystemFiles;

/**
 * What a drive shares with others on its data's way to the computer, from Linux's port tree under {@code /sys}. Two drives behind
 * one controller share it, whichever hubs are between; of anything else it is not known with whom it shares.
 */
public final class Links {

    private static final String BLOCK = "/sys/class/block/";
    private static final Pattern NODE = Pattern.compile("[A-Za-z0-9!_-]{1,40}");

    /** The PCI function that everything below goes through; the last one of the path is the drive's own controller. */
    private static final Pattern CONTROLLER =
            Pattern.compile("/([0-9a-f]{4,8}:[0-9a-f]{2}:[0-9a-f]{2}\\.[0-7])(?=/)", Pattern.CASE_INSENSITIVE);

    private final SystemFiles files;

    public Links(SystemFiles files) {
        this.files = files;
    }

    /**
     * Names of what it shares, for example {@code 0000:00:14.0}; null where that is not known.
     *
     * @param node name of its device, null if not known
     */
    public @Nullable List<String> of(@Nullable String node) {
        if (node == null || !NODE.matcher(node).matches()) {
            return null;
        }
        String real = files.real(BLOCK + node);
        if (real == null || real.contains("/virtual/")) {
            return null;
        }
        Matcher controllers = CONTROLLER.matcher(real);
        String last = null;
        while (controllers.find()) {
            last = controllers.group(1);
        }
        return last == null ? null : List.of(last);
    }
}
