package tracksoak.bench.command.demo;

import java.util.List;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.Margins;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.TrackGroup;

/** The session of the demo: an evening of an invented touring community theatre. */
final class DemoSession {

    private DemoSession() {}

    /** Small enough for any computer; takes any file system, because it is shown on whatever this one has. */
    static Session lanternWagon() {
        return session(
                "lantern-wagon-16",
                "The Lantern Wagon, 16 tracks",
                "An invented touring community theatre records its play from a wagon stage: twelve voices, four "
                        + "instruments.",
                16);
    }

    /** The same theatre when choir and band of a town join in. */
    static Session harvestFair() {
        return session(
                "harvest-fair-48",
                "The Lantern Wagon with choir and band, 48 tracks",
                "The same invented theatre on a market square: choir, band and all voices.",
                48);
    }

    private static Session session(String name, String title, String about, int tracks) {
        return new Session(
                name,
                title,
                about,
                SessionKind.RECORDING,
                List.of(new TrackGroup(tracks, 48_000, SampleFormat.PCM_24)),
                List.of(),
                1200,
                FileLayout.FILE_PER_TRACK,
                64 << 10,
                Arrival.BURST,
                1,
                10,
                2,
                true,
                4_294_967_295L,
                List.of(),
                250,
                Session.USUAL_VALID_DAYS,
                new Margins(1.25, 1.5, 2, 1.25, 1250, 15_000));
    }
}
