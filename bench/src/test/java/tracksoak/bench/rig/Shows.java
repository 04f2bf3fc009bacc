package tracksoak.bench.rig;

import java.util.List;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.Margins;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.TrackGroup;
import tracksoak.report.record.facts.PlanName;

/**
 * Sessions and plans short enough for a test. Demand: tracks × 48,000 Hz × 3 B, the arithmetic of the trade; sample rate
 * from AES5.
 */
final class Shows {

    /** Demand of one track at 48 kHz/24-bit in B/s. */
    static final long TRACK = 144_000;

    static final int CHUNK = 65_536;

    private Shows() {}

    /** So many tracks at 48 kHz/24-bit: 64 KiB chunks in a burst, 2 s of buffer, a flush every 5 s. */
    static Session tracks(int tracks) {
        return tracks(tracks, CHUNK);
    }

    /** The same in chunks of another size, for a test that needs short chunk periods. */
    static Session tracks(int tracks, int chunkBytes) {
        return session(tracks, FileLayout.FILE_PER_TRACK, chunkBytes, Arrival.BURST, 2);
    }

    /** All tracks in one file: one stream. */
    static Session interleaved(int tracks, int chunkBytes, double bufferS) {
        return session(tracks, FileLayout.INTERLEAVED, chunkBytes, Arrival.STAGGERED, bufferS);
    }

    /** So many tracks to be played, else the same as {@link #tracks(int)}. */
    static Session playback(int tracks) {
        return session(SessionKind.PLAYBACK, tracks, FileLayout.FILE_PER_TRACK, CHUNK, Arrival.BURST, 2);
    }

    private static Session session(int tracks, FileLayout layout, int chunkBytes, Arrival arrival, double bufferS) {
        return session(SessionKind.RECORDING, tracks, layout, chunkBytes, arrival, bufferS);
    }

    private static Session session(
            SessionKind kind, int tracks, FileLayout layout, int chunkBytes, Arrival arrival, double bufferS) {
        return Session.builder()
                .name("rehearsal-" + tracks)
                .title(tracks + " tracks of a rehearsal")
                .kind(kind)
                .groups(List.of(new TrackGroup(tracks, 48_000, SampleFormat.PCM_24)))
                .lengthS(60)
                .layout(layout)
                .chunkBytes(chunkBytes)
                .arrival(arrival)
                .writers(1)
                .flushS(5)
                .bufferS(bufferS)
                .bufferAssumed(false)
                .fileLimitBytes((1L << 32) - 1)
                .fileSystems(List.of("ext4", "exfat", "fat32"))
                .stallLimitMs(250)
                .margins(new Margins(1.25, 1.2, 2, 1.5, 1_500, 10_000))
                .build();
    }

    /** One take of {@code seconds}, close, read-back. */
    static Plan take(double seconds) {
        return Plan.lineCheck().withDurations(null, null, seconds).withIdle(0.0);
    }

    /** Take, fill in rounds of 1 s, take, close, read-back. */
    static Plan takeFillTake(double beforeS, double fillCapS, double afterS) {
        return takeFillTake(beforeS, fillCapS, afterS, 1);
    }

    /** The same with rounds of another length. */
    static Plan takeFillTake(double beforeS, double fillCapS, double afterS, double roundS) {
        return Plan.named(PlanName.SOUND_CHECK)
                .takeBefore(beforeS)
                .fillCap(fillCapS)
                .takeAfter(afterS)
                .round(roundS)
                .shortened()
                .plan();
    }

    /** Fill in rounds of 1 s, read-back, delete, and a take that may go on from {@code leastS} to {@code mostS}; close, read-back. */
    static Plan fillThenTake(double fillCapS, double leastS, double mostS) {
        return Plan.named(PlanName.SOUND_CHECK)
                .fillCap(fillCapS)
                .takeAfter(leastS)
                .takeMost(mostS)
                .round(1)
                .shortened()
                .plan();
    }

    /** Fill of all that is free, read-back, take of {@code seconds}, close, read-back; in rounds of 1 s. */
    static Plan fullShow(double seconds) {
        return Plan.named(PlanName.FULL_SHOW)
                .fillCap(Plan.LONGEST_S)
                .takeAfter(seconds)
                .round(1)
                .shortened()
                .wholeSpace()
                .plan();
    }
}
