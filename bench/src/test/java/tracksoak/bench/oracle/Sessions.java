package tracksoak.bench.oracle;

import java.util.List;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.Margins;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.TrackGroup;

/** Sessions for tests, made without a profile file. */
public final class Sessions {

    private Sessions() {}

    /** A recording with everything that matters to the loop, and margins that are the same for all. */
    public static Session of(
            List<TrackGroup> groups,
            FileLayout layout,
            int chunkBytes,
            Arrival arrival,
            double flushS,
            double bufferS,
            long stallLimitMs) {
        return Session.builder()
                .name("trial")
                .title("A trial")
                .kind(SessionKind.RECORDING)
                .groups(groups)
                .lengthS(3600)
                .layout(layout)
                .chunkBytes(chunkBytes)
                .arrival(arrival)
                .writers(1)
                .flushS(flushS)
                .bufferS(bufferS)
                .bufferAssumed(false)
                .fileLimitBytes(1L << 40)
                .fileSystems(List.of("exfat"))
                .stallLimitMs(stallLimitMs)
                .margins(new Margins(2, 1.5, 2, 2, 1000, 30_000))
                .build();
    }

    /** Tracks at 48 kHz, 24-bit in chunks of 64 KiB that all fall due at once. */
    public static Session tracks(int tracks) {
        return of(
                List.of(new TrackGroup(tracks, 48_000, SampleFormat.PCM_24)),
                FileLayout.FILE_PER_TRACK,
                64 << 10,
                Arrival.BURST,
                5,
                2,
                250);
    }

    /** The same session for one minute, in chunks of at least 64 KiB, so that a fill of it is soon done. */
    static Session shortSession(Session session) {
        int chunk = Math.max(64 << 10, session.chunkBytes());
        return session.but()
                .lengthS(60)
                .chunkBytes(chunk)
                .bufferS(Math.max(session.bufferS(), chunk / 80_000.0))
                .build();
    }

    /** A mixdown of the same tracks; the buffer grows if a chunk of the mix would not fit. */
    static Session mixdown(Session session, List<TrackGroup> mix) {
        double longestChunkS = mix.stream()
                .mapToDouble(group -> session.chunkBytes() / (double) group.bytesPerSecondPerTrack())
                .max()
                .orElseThrow();
        return session.but()
                .kind(SessionKind.MIXDOWN)
                .mix(mix)
                .bufferS(Math.max(session.bufferS(), 1.01 * longestChunkS))
                .build();
    }
}
