package tracksoak.bench.volume;

import java.util.List;

/**
 * A file or folder as the file system's tables have it.
 *
 * @param path from the root, with slashes between names and none in front; from outside, so not yet harmless to look at
 * @param folder whether it is a folder
 * @param sizeBytes its length; of a folder, what its clusters hold
 * @param validBytes how much of it was ever written: less than its length where space was given in advance (exFAT); else
 *     its length
 * @param extents where its clusters lie, in their order; the last may reach beyond its length
 * @param entryByte where on the device its entry in its folder begins
 */
public record VolumeFile(
        String path, boolean folder, long sizeBytes, long validBytes, List<Extent> extents, long entryByte) {

    public VolumeFile {
        extents = extents instanceof ClusterRuns ? extents : List.copyOf(extents); // which may be millions
    }

    /** Bytes of all its clusters: more than its length where space was given in advance. */
    public long allocatedBytes() {
        return extents.stream().mapToLong(Extent::lengthBytes).sum();
    }
}
