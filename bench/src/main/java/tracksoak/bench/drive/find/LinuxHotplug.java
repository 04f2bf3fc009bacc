package tracksoak.bench.drive.find;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import tracksoak.bench.drive.system.BlockNodes;
import tracksoak.bench.drive.system.Mount;
import tracksoak.bench.drive.system.MountTable;
import tracksoak.bench.drive.system.SystemFiles;

/** What is plugged in, by {@code /sys/class/block} and {@code /proc/self/mountinfo}. */
final class LinuxHotplug implements HotplugSource {

    private static final String BLOCKS = "/sys/class/block";

    private final SystemFiles files;

    LinuxHotplug(SystemFiles files) {
        this.files = files;
    }

    @Override
    public boolean known() {
        return files.text(MountTable.FILE) != null && files.real(BLOCKS) != null;
    }

    /** A device of size 0 has no medium in it: a card reader without a card, a loop device without a file. */
    @Override
    public Set<String> devices() {
        Set<String> names = new HashSet<>();
        for (String name : files.names(BLOCKS)) {
            Long sectors = files.number(BLOCKS + "/" + name + "/size");
            if (sectors != null && sectors > 0) {
                names.add(name);
            }
        }
        return names;
    }

    @Override
    public List<Place> places() {
        BlockNodes nodes = new BlockNodes(files);
        List<Place> places = new ArrayList<>();
        for (Mount mount : MountTable.of(files).mounts()) {
            Optional<String> node = nodes.of(mount);
            if (node.isPresent()) {
                places.add(new Place(
                        mount.id(),
                        Path.of(mount.point()),
                        Stream.of(node.get(), nodes.disk(node.get()))
                                .map(BlockNodes::name)
                                .collect(Collectors.toUnmodifiableSet())));
            }
        }
        return places;
    }
}
