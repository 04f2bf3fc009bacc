package tracksoak.bench.drive.system;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * What drives share on their data's way to the computer, from Linux's port tree under {@code /sys}. Two drives behind one controller
 * share it, whichever hubs are between.
 */
public final class PortTree {

    private static final String BLOCK = "/sys/block/";

    /** The PCI function that everything below goes through; the last one of the path is the drive's own controller. */
    private static final Pattern CONTROLLER =
            Pattern.compile("/([0-9a-f]{4,8}:[0-9a-f]{2}:[0-9a-f]{2}\\.[0-7])(?=/)", Pattern.CASE_INSENSITIVE);

    private static final Pattern USB = Pattern.compile("/usb[0-9]{1,4}/");

    private PortTree() {}

    /**
     * The controller a device is behind, for example {@code 0000:00:14.0}; null where that is not known.
     *
     * @param node folder of the device under {@code /sys}, with all links resolved
     */
    public static @Nullable String controller(String node) {
        Matcher controllers = CONTROLLER.matcher(node);
        String last = null;
        while (controllers.find()) {
            last = controllers.group(1);
        }
        return node.contains("/virtual/") ? null : last;
    }

    /**
     * The other drives behind the controller of a USB drive, as folders under {@code /sys}; null where the drive is on no USB bus, or
     * its controller is not known.
     *
     * @param disk folder of the whole disk under {@code /sys}, with all links resolved
     */
    public static @Nullable List<String> usbNeighbours(SystemFiles files, String disk) {
        String controller = controller(disk);
        if (controller == null || !USB.matcher(disk).find()) {
            return null;
        }
        List<String> neighbours = new ArrayList<>();
        for (String name : files.names(BLOCK)) {
            String real = files.real(BLOCK + name);
            if (real != null && !real.equals(disk) && controller.equals(controller(real))) {
                neighbours.add(real);
            }
        }
        return neighbours;
    }
}
