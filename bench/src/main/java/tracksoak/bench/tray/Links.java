package tracksoak.bench.tray;

import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.system.PortTree;
import tracksoak.bench.drive.system.SystemFiles;

/**
 * What a drive shares with others on its data's way to the computer ({@link PortTree}); of anything that is behind no controller it
 * is not known with whom it shares.
 */
public final class Links {

    private static final String BLOCK = "/sys/class/block/";
    private static final Pattern NODE = Pattern.compile("[A-Za-z0-9!_-]{1,40}");

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
        String controller = real == null ? null : PortTree.controller(real);
        return controller == null ? null : List.of(controller);
    }
}
