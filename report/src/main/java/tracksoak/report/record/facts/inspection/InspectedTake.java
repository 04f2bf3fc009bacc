package tracksoak.report.record.facts.inspection;

import java.util.List;

/**
 * A take.
 *
 * @param name by its folder or files
 * @param seconds length of its longest track, in s
 * @param tracks in the order of their names
 * @param files of all tracks, one track's after the other's
 */
public record InspectedTake(String name, double seconds, List<InspectedTrack> tracks, List<InspectedFile> files) {

    public InspectedTake {
        tracks = List.copyOf(tracks);
        files = List.copyOf(files);
    }
}
