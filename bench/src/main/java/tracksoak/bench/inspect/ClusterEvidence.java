package tracksoak.bench.inspect;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.Take;
import tracksoak.bench.recording.WaveHeader;
import tracksoak.bench.volume.Extent;
import tracksoak.bench.volume.Volume;
import tracksoak.bench.volume.VolumeFile;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Quantity;

/**
 * What the places of a take's clusters show of how it was written: where several files grow at once, each gets a run of clusters as
 * long as what was written of it at once.
 *
 * @param chunkBytes the piece written at once; 0 where it cannot be told
 * @param chunk what shows it, or why it cannot be told
 * @param inAdvance what the tables say of space given in advance
 */
record ClusterEvidence(long chunkBytes, String chunk, String inAdvance) {

    private static final int LEAST_RUNS = 8;
    private static final double MOST_OF = 0.8;

    static ClusterEvidence of(Take take, Recordings recordings) {
        Volume volume = recordings.volume();
        if (volume == null) {
            String why = "cannot be told: " + recordings.volumeUnknown();
            return new ClusterEvidence(0, why, why);
        }
        List<VolumeFile> files = files(take, recordings, volume);
        return chunk(files, volume.clusterBytes(), inAdvance(take, files));
    }

    private static List<VolumeFile> files(Take take, Recordings recordings, Volume volume) {
        Map<String, VolumeFile> byPath = new HashMap<>();
        volume.files().forEach(file -> byPath.put(file.path(), file));
        List<VolumeFile> files = new ArrayList<>();
        take.tracks().forEach(track -> {
            for (RecordedFile file : track.files()) {
                VolumeFile found = byPath.get(recordings.prefix() + file.path());
                if (found != null) {
                    files.add(found);
                }
            }
        });
        return files;
    }

    private static ClusterEvidence chunk(List<VolumeFile> files, int clusterBytes, String inAdvance) {
        Map<Long, Integer> runs = new TreeMap<>();
        int all = 0;
        Set<Long> begins = new HashSet<>();
        files.forEach(file -> file.extents().forEach(run -> begins.add(run.startByte())));
        for (VolumeFile file : files) {
            // the last run ends where the file does, and says nothing; nor does one that ended for want of free space
            for (int i = 0; i + 1 < file.extents().size(); i++) {
                Extent run = file.extents().get(i);
                if (begins.contains(run.endByte())) {
                    runs.merge(run.lengthBytes(), 1, Integer::sum);
                    all++;
                }
            }
        }
        if (files.size() < 2 || all < LEAST_RUNS) {
            return new ClusterEvidence(0, "cannot be told: the clusters of the files do not take turns", inAdvance);
        }
        long usual = runs.entrySet().stream()
                .max(Map.Entry.comparingByValue())
                .map(Map.Entry::getKey)
                .orElse(0L);
        long fitting = runs.entrySet().stream()
                .filter(run -> run.getKey() % usual == 0)
                .mapToInt(Map.Entry::getValue)
                .sum();
        if (fitting < MOST_OF * all) {
            return new ClusterEvidence(0, "cannot be told: the files' runs of clusters are of many lengths", inAdvance);
        }
        if (usual == clusterBytes) {
            return new ClusterEvidence(
                    0,
                    "cannot be told but for this: at most one cluster of " + Quantity.exactBytes(clusterBytes)
                            + " was written at once",
                    inAdvance);
        }
        return new ClusterEvidence(
                usual,
                Count.number(fitting) + " of " + Count.of(all, "run") + " of clusters are whole multiples of it",
                inAdvance);
    }

    private static String inAdvance(Take take, List<VolumeFile> files) {
        List<WaveHeader> headers = take.tracks().stream()
                .flatMap(track -> track.files().stream())
                .map(RecordedFile::header)
                .toList();
        long ahead = files.stream()
                .filter(file -> file.validBytes() < file.sizeBytes()
                        || file.allocatedBytes() > file.sizeBytes() + Math.max(1, lastRun(file)))
                .count();
        long behind = headers.stream()
                .filter(header -> header.finish() == WaveHeader.Finish.DONE && header.behindBytes() > 0)
                .count();
        if (ahead == 0 && behind == 0 && headers.stream().anyMatch(one -> one.finish() == WaveHeader.Finish.NEVER)) {
            return "cannot be told: headers were never finished, so files may hold more than was recorded";
        }
        return files.isEmpty()
                ? "cannot be told: the files were not found in the tables"
                : ahead == 0 && behind == 0
                        ? "none is left on these files"
                        : "shown by " + Count.of(Math.max(ahead, behind), "file");
    }

    private static long lastRun(VolumeFile file) {
        return file.extents().isEmpty()
                ? 0
                : file.extents().get(file.extents().size() - 1).lengthBytes();
    }
}
