package tracksoak.bench.simulated.catalog;

import java.util.List;
import java.util.Optional;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.profiles.base.Shipped;

/**
 * The simulated drives people can ask for by name, to see what a good and what a failing drive looks like: drive files that
 * ship with the program. Made up, each to show one way of failing (or of being good enough); no figure is that of a product.
 * The seeds are fixed.
 */
public final class SimulatedDrives {

    private static final List<String> NAMES = List.of(
            "steady-ssd",
            "steady-stick",
            "slow-stick",
            "cliff-ssd",
            "nearly-full-stick",
            "tidying-stick",
            "hiccup-card",
            "collecting-ssd",
            "hot-ssd",
            "crowded-card",
            "old-disk",
            "sleepy-disk",
            "shared-port-stick",
            "flush-bound-stick",
            "aged-ssd",
            "faded-stick",
            "fake-wrap",
            "fake-drop",
            "fake-zero",
            "weak-cell-stick",
            "torn-write-card",
            "forgetful-ssd",
            "loose-plug-stick",
            "worn-out-card",
            "hanging-ssd",
            "dozing-ssd");

    private SimulatedDrives() {}

    /** Their names, those of the good ones first. */
    public static List<String> names() {
        return NAMES;
    }

    /** All of them, in the order of their names. */
    public static List<DriveModel> all() {
        return NAMES.stream().map(SimulatedDrives::read).toList();
    }

    /** The one with that name. */
    public static Optional<DriveModel> named(String name) {
        return NAMES.contains(name) ? Optional.of(read(name)) : Optional.empty();
    }

    private static DriveModel read(String name) {
        return DriveReader.read(Shipped.text("/tracksoak/simulated/" + name + ".toml"), "simulated/" + name + ".toml");
    }
}
