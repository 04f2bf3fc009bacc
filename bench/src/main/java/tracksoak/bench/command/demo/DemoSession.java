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
        return Session.builder()
                .name(name)
                .title(title)
                .about(about)
                .kind(SessionKind.RECORDING)
                .groups(List.of(new TrackGroup(tracks, 48_000, SampleFormat.PCM_24)))
                .lengthS(1200)
                .layout(FileLayout.FILE_PER_TRACK)
                .chunkBytes(64 << 10)
                .arrival(Arrival.BURST)
                .writers(1)
                .flushS(10)
                .bufferS(2)
                .bufferAssumed(true)
                .fileLimitBytes(4_294_967_295L)
                .fileSystems(List.of())
                .stallLimitMs(250)
                .margins(new Margins(1.25, 1.5, 2, 1.25, 1250, 15_000))
                .build();
    }
}
