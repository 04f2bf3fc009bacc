package tracksoak.bench.standin.learn;

import java.util.List;
import java.util.OptionalLong;
import tracksoak.bench.volume.Extent;
import tracksoak.bench.volume.VolumeFile;

/** Whether files were given more space than they needed at the time: told by how their clusters lie. Stateless. */
final class SpaceLook {

    private SpaceLook() {}

    /**
     * Space given to a file at once, in bytes; 0 where clusters were taken as they were needed, empty where that cannot be told.
     *
     * @param streams files written at the same time
     */
    static OptionalLong advanceBytes(List<Stream> streams, int clusterBytes) {
        long beyond = 0;
        for (Stream one : streams) {
            VolumeFile file = one.file();
            long needed = (file.sizeBytes() + clusterBytes - 1) / clusterBytes * clusterBytes;
            beyond = Math.max(beyond, Math.max(file.allocatedBytes() - needed, file.sizeBytes() - file.validBytes()));
        }
        Column runs = new Column();
        for (Stream one : streams) {
            List<Extent> extents = one.file().extents();
            for (int i = 0; i + 1 < extents.size(); i++) {
                runs.add(extents.get(i).lengthBytes());
            }
        }
        if (runs.size() >= 2) {
            long run = runs.mode();
            long inTurn = Math.max(streams.get(0).chunkBytes(), clusterBytes);
            return OptionalLong.of(run > inTurn * 5 / 4 + clusterBytes ? run : beyond);
        }
        if (beyond > 0) {
            return OptionalLong.of(beyond);
        }
        if (streams.size() < 2) {
            return OptionalLong.empty();
        }
        // written in turn, and each in one piece all the same
        long largest = streams.stream()
                .mapToLong(one -> one.file().allocatedBytes())
                .max()
                .orElse(0);
        return largest > 2L * clusterBytes ? OptionalLong.of(largest) : OptionalLong.empty();
    }
}
