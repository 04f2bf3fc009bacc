package tracksoak.bench.recording;

import java.util.List;

/**
 * The files of one take.
 *
 * @param name a name for it; from outside, so not yet harmless to look at
 * @param tracks its tracks as files hold them, in the order of their names
 * @param certain false where nothing but the names says that these files belong together or apart
 */
public record Take(String name, List<TrackFiles> tracks, boolean certain) {

    public Take {
        tracks = List.copyOf(tracks);
    }
}
