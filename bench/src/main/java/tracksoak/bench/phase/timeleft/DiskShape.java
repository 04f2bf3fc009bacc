package tracksoak.bench.phase.timeleft;

import tracksoak.report.record.facts.DriveFacts;

/**
 * How the rate of a drive changes with the place on it, for the time left that is shown. A spinning disk is taken to be
 * half as fast at its end as at its beginning (common practice, no source), and to be filled from its beginning; any
 * other drive to be as fast everywhere.
 *
 * @param sizeBytes of the whole, 0 where the rate is the same everywhere
 * @param usedBytes in use before the run
 */
public record DiskShape(double sizeBytes, double usedBytes) {

    /** The same rate everywhere. */
    public static final DiskShape EVEN = new DiskShape(0, 0);

    public static DiskShape of(DriveFacts drive) {
        Long size = drive.fileSystemBytes();
        Long free = drive.freeBytes();
        return Boolean.TRUE.equals(drive.rotational()) && size != null && free != null && size > 0
                ? new DiskShape((double) size, (double) (size - free))
                : EVEN;
    }

    /**
     * Mean time per byte between two places, in parts of that at the beginning of the drive. Places are bytes since the
     * beginning of the run.
     */
    double slowness(double from, double to) {
        if (sizeBytes <= 0) {
            return 1;
        }
        double a = Math.min(1, (usedBytes + from) / sizeBytes);
        double b = Math.min(1, (usedBytes + to) / sizeBytes);
        return b - a < 1e-9 ? 1 / (1 - a / 2) : 2 * Math.log((1 - a / 2) / (1 - b / 2)) / (b - a);
    }
}
