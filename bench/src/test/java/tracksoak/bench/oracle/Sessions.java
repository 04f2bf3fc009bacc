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
        return new Session(
                "trial",
                "A trial",
                "",
                SessionKind.RECORDING,
                groups,
                List.of(),
                3600,
                layout,
                chunkBytes,
                arrival,
                1,
                flushS,
                bufferS,
                false,
                1L << 40,
                List.of("exfat"),
                stallLimitMs,
                90,
                new Margins(2, 1.5, 2, 2, 1000, 30_000));
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
        return new Session(
                session.name(),
                session.title(),
                session.about(),
                session.kind(),
                session.groups(),
                session.mix(),
                60,
                session.layout(),
                chunk,
                session.arrival(),
                session.writers(),
                session.flushS(),
                Math.max(session.bufferS(), chunk / 80_000.0),
                session.bufferAssumed(),
                session.fileLimitBytes(),
                session.fileSystems(),
                session.stallLimitMs(),
                session.validDays(),
                session.margins());
    }

    /** A mixdown of the same tracks; the buffer grows if a chunk of the mix would not fit. */
    static Session mixdown(Session session, List<TrackGroup> mix) {
        double longestChunkS = mix.stream()
                .mapToDouble(group -> session.chunkBytes() / (double) group.bytesPerSecondPerTrack())
                .max()
                .orElseThrow();
        return new Session(
                session.name(),
                session.title(),
                session.about(),
                SessionKind.MIXDOWN,
                session.groups(),
                mix,
                session.lengthS(),
                session.layout(),
                session.chunkBytes(),
                session.arrival(),
                session.writers(),
                session.flushS(),
                Math.max(session.bufferS(), 1.01 * longestChunkS),
                session.bufferAssumed(),
                session.fileLimitBytes(),
                session.fileSystems(),
                session.stallLimitMs(),
                session.validDays(),
                session.margins());
    }
}
