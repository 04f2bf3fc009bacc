package tracksoak.bench.recording;

import java.util.List;

/**
 * The files of one take.
 *
 * @param name a name for it; from outside, so not yet harmless to look at
 * @param tracks its tracks as files hold them, in the order of their names
 * @param certain false where nothing but the names says that these files belong together or apart
 * @param mayGoOn whether another take beside it may be the rest of this one, of which audio is missing or there twice
 * @param firstNumber the number its first files have where files before them should lie there, if the number counts splits; else 0
 */
public record Take(String name, List<TrackFiles> tracks, boolean certain, boolean mayGoOn, int firstNumber) {

    Take(String name, List<TrackFiles> tracks, boolean certain) {
        this(name, tracks, certain, false, 0);
    }

    public Take {
        tracks = List.copyOf(tracks);
    }
}
