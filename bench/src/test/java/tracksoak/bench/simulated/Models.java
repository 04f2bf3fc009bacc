package tracksoak.bench.simulated;

/** Simulated drives that differ from others in one figure. */
public final class Models {

    private Models() {}

    /** The same drive with so much in use before the run, in bytes. */
    public static DriveModel used(DriveModel like, long usedBytes) {
        return with(like, usedBytes, like.fileSystem(), like.clusterBytes(), like.linkMbps(), like.rotational());
    }

    /** The same drive with another file system and allocation unit, in bytes. */
    public static DriveModel formatted(DriveModel like, String fileSystem, int clusterBytes) {
        return with(like, like.usedBytes(), fileSystem, clusterBytes, like.linkMbps(), like.rotational());
    }

    /** The same drive on a port of another speed, in Mbit/s. */
    public static DriveModel linked(DriveModel like, int linkMbps) {
        return with(like, like.usedBytes(), like.fileSystem(), like.clusterBytes(), linkMbps, like.rotational());
    }

    /** The same drive as a spinning disk. */
    public static DriveModel spinning(DriveModel like) {
        return with(like, like.usedBytes(), like.fileSystem(), like.clusterBytes(), like.linkMbps(), true);
    }

    private static DriveModel with(
            DriveModel like, long usedBytes, String fileSystem, int clusterBytes, int linkMbps, boolean rotational) {
        return new DriveModel(
                like.name(),
                like.about(),
                like.seed(),
                like.capacityBytes(),
                usedBytes,
                fileSystem,
                clusterBytes,
                linkMbps,
                rotational,
                like.behaviours());
    }
}
