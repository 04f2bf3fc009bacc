package tracksoak.bench.volume;

import java.util.List;
import java.util.stream.Stream;
import tracksoak.profiles.base.Inert;

/**
 * A file system and everything that lies in it. Places count from the beginning of the device, not of the partition.
 *
 * @param partition where it lies
 * @param fileSystem {@code fat32} or {@code exfat}
 * @param label its name, may be empty; from outside, so not yet harmless to look at
 * @param clusterBytes the piece in which it gives space to files
 * @param clusters how many there are
 * @param tables the allocation tables, the one in use first
 * @param heap where the clusters lie
 * @param bitmap where exFAT keeps the list of clusters in use; empty on FAT32
 * @param dirty whether it says that it was not unmounted cleanly
 * @param mediaFailure whether it says that blocks could not be read or written
 * @param files files and folders, each folder before what is in it; the root folder first, with an empty path
 * @param shared what several files have in common: two files given the same clusters; at most 1,000 pieces, file by file
 * @param troubles what else contradicts itself in its tables, one sentence each, names made harmless; empty where all is well
 */
public record Volume(
        Partition partition,
        String fileSystem,
        String label,
        int clusterBytes,
        long clusters,
        List<Extent> tables,
        Extent heap,
        List<Extent> bitmap,
        boolean dirty,
        boolean mediaFailure,
        List<VolumeFile> files,
        List<SharedPiece> shared,
        List<String> troubles) {

    public Volume {
        tables = List.copyOf(tables);
        bitmap = List.copyOf(bitmap);
        files = List.copyOf(files);
        shared = List.copyOf(shared);
        troubles = List.copyOf(troubles);
    }

    /** The same, but of what files share only what another reading of the same volume shows as well. */
    public Volume agreeing(Volume again) {
        return new Volume(
                partition,
                fileSystem,
                label,
                clusterBytes,
                clusters,
                tables,
                heap,
                bitmap,
                dirty,
                mediaFailure,
                files,
                shared.stream().filter(again.shared::contains).toList(),
                troubles);
    }

    /** All that contradicts itself in its tables, one sentence each, names made harmless. */
    public List<String> contradictions() {
        return Stream.concat(
                        troubles.stream(),
                        shared.stream().map(SharedPiece::path).distinct().map(Volume::crossed))
                .toList();
    }

    private static String crossed(String path) {
        return Inert.quoted("/" + path) + " has clusters that belong to another file as well.";
    }
}
