package tracksoak.bench.simulated;

import java.util.List;
import java.util.regex.Pattern;
import tracksoak.bench.simulated.figures.Limits;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.DriveFacts;

/**
 * A simulated drive as data: what it is and how it behaves. Immutable.
 *
 * @param name short name, lower case with dashes
 * @param about one line for people: what it is
 * @param seed seed of everything left to chance
 * @param capacityBytes size it claims, in bytes
 * @param usedBytes in use by others before the run, at its beginning, in bytes
 * @param fileSystem {@code fat32}, {@code exfat} or {@code ext4}
 * @param clusterBytes allocation unit of the file system, in bytes
 * @param linkMbps link speed in Mbit/s
 * @param rotational whether it is a spinning disk
 * @param behaviours its traits, in the order in which they act
 */
public record DriveModel(
        String name,
        String about,
        long seed,
        long capacityBytes,
        long usedBytes,
        String fileSystem,
        int clusterBytes,
        int linkMbps,
        boolean rotational,
        List<Behaviour> behaviours) {

    /** The file systems there are. */
    public static final List<String> FILE_SYSTEMS = List.of("exfat", "fat32", "ext4");

    /** Most behaviours of one drive. */
    public static final int MOST_BEHAVIOURS = 32;

    /** Largest size in bytes. */
    static final long MOST_BYTES = 4L << 40;

    private static final int MOST_CLUSTERS = 1 << 25;
    private static final Pattern NAME = Pattern.compile("[a-z0-9]+(-[a-z0-9]+){0,20}");

    public DriveModel {
        long cluster = Math.max(SimulatedDrive.BLOCK, clusterBytes);
        boolean whole = clusterBytes > 0 && clusterBytes % SimulatedDrive.BLOCK == 0;
        new Limits()
                .fits(
                        "name",
                        name,
                        name.length() <= 48 && NAME.matcher(name).matches(),
                        "small letters a-z, digits and single hyphens, 1 to 48 characters")
                .bytes("size", capacityBytes, cluster, Math.min(MOST_BYTES, MOST_CLUSTERS * cluster))
                .bytes("used", usedBytes, 0, capacityBytes)
                .fits("file_system", fileSystem, FILE_SYSTEMS.contains(fileSystem), String.join(", ", FILE_SYSTEMS))
                .bytes("cluster", clusterBytes, SimulatedDrive.BLOCK, 32 << 20)
                .fits("cluster", clusterBytes + " B", whole, "a multiple of 4 KiB")
                .count("link_mbps", linkMbps, 1, 100_000)
                .fits(
                        "behaviour",
                        behaviours.size() + " tables",
                        behaviours.size() <= MOST_BEHAVIOURS,
                        "1 to 32 tables")
                .hold();
        behaviours = List.copyOf(behaviours);
    }

    /** A USB drive with an empty exFAT file system of 128 KiB clusters on a 5,000 Mbit/s port. */
    public static DriveModel of(String name, String about, long seed, long capacityBytes, Behaviour... behaviours) {
        return new DriveModel(
                name, about, seed, capacityBytes, 0, "exfat", 128 << 10, 5000, false, List.of(behaviours));
    }

    /** The same drive with another seed. */
    public DriveModel withSeed(long newSeed) {
        return new DriveModel(
                name,
                about,
                newSeed,
                capacityBytes,
                usedBytes,
                fileSystem,
                clusterBytes,
                linkMbps,
                rotational,
                behaviours);
    }

    /** Plugs in a new drive of this model; see {@link SimulatedDrive#SimulatedDrive}. */
    public SimulatedDrive plug(VirtualClock clock, long hangLimitNs) {
        return new SimulatedDrive(this, clock, hangLimitNs);
    }

    int clusters() {
        return Math.toIntExact(capacityBytes / clusterBytes);
    }

    int usedClusters() {
        return Math.min(clusters(), Math.toIntExact((usedBytes + clusterBytes - 1) / clusterBytes));
    }

    DriveFacts facts(long freeBytes) {
        return DriveFacts.builder()
                .system(false)
                .maker("simulated")
                .model(name)
                .serial("seed " + seed)
                .sizeBytes(capacityBytes)
                .bus("simulated")
                .linkMbps((double) linkMbps)
                .removable(true)
                .rotational(rotational)
                .node("simulated")
                .mount("simulated")
                .folder("simulated:" + name)
                .fileSystem(fileSystem)
                .fileSystemBytes(capacityBytes)
                .freeBytes(freeBytes)
                .clusterBytes((long) clusterBytes)
                .build();
    }
}
