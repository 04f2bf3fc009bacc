package tracksoak.report.record.facts.inspection;

/**
 * The file system as its own tables have it.
 *
 * @param fileSystem {@code fat32} or {@code exfat}
 * @param clusterBytes the piece in which it gives space to files
 * @param inUse whether it was mounted for writing, so that its marks say nothing of the recorder
 * @param dirty whether it says that it was not unmounted cleanly
 * @param mediaFailure whether it says that blocks could not be read or written
 */
public record VolumeSeen(String fileSystem, int clusterBytes, boolean inUse, boolean dirty, boolean mediaFailure) {}
