package tracksoak.report.roster.standing;

import java.util.List;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.Demand;
import tracksoak.profiles.FileLimit;
import tracksoak.profiles.Margins;
import tracksoak.profiles.Session;
import tracksoak.profiles.StreamSpec;

/**
 * Which session is at least as hard as which, in every respect: a partial order, so of two sessions neither may be. Names,
 * titles and whether the buffer is assumed play no part; nor does the stall limit, which only says what is noted. Pure.
 */
public final class SessionOrder {

    private SessionOrder() {}

    /**
     * Whether a drive that carries {@code hard} carries {@code easy} as well, and one that misses {@code easy} misses
     * {@code hard}.
     *
     * <ul>
     *   <li>Kind, mix, layout, piece written at once, writes in flight and interval of flushes must be equal: of two values
     *       neither is the harder one. A larger piece is a longer burst, a smaller one more writes; flushing more often costs
     *       in the take, more rarely at the close.
     *   <li>Streams: at least as many, the fastest at least as fast as the fastest, and so on down.
     *   <li>Arrival: all at once covers spread out.
     *   <li>Length and number of files: at least as much, so that the room is enough.
     *   <li>Buffer: at most as long. File limit: at most as large (more splits), and on the same side of FAT32's largest file.
     *   <li>File systems: all that {@code hard} accepts, {@code easy} accepts.
     *   <li>Each margin: at least as much asked; longest stall and close: at most as long allowed.
     * </ul>
     */
    public static boolean covers(Session hard, Session easy) {
        return hard.kind() == easy.kind()
                && hard.layout() == easy.layout()
                && hard.chunkBytes() == easy.chunkBytes()
                && hard.writers() == easy.writers()
                && Double.compare(hard.flushS(), easy.flushS()) == 0
                && hard.mix().equals(easy.mix())
                && (hard.arrival() == Arrival.BURST || easy.arrival() == Arrival.STAGGERED)
                && hard.lengthS() >= easy.lengthS()
                && hard.bufferS() <= easy.bufferS()
                && fileLimit(hard.fileLimitBytes(), easy.fileLimitBytes())
                && easy.fileSystems().containsAll(hard.fileSystems())
                && streams(hard.streams(), easy.streams())
                && files(hard) >= files(easy)
                && margins(hard.margins(), easy.margins());
    }

    private static boolean fileLimit(long hard, long easy) {
        long fat32 = FileLimit.FAT32.maxFileBytes();
        return hard <= easy && (hard <= fat32) == (easy <= fat32);
    }

    private static long files(Session session) {
        Demand demand = Demand.of(session);
        return demand.files(demand.sessionLimit());
    }

    private static boolean streams(List<StreamSpec> hard, List<StreamSpec> easy) {
        if (hard.size() < easy.size()) {
            return false;
        }
        long[] has = fastestLast(hard);
        long[] needs = fastestLast(easy);
        for (int i = 1; i <= needs.length; i++) {
            if (has[has.length - i] < needs[needs.length - i]) {
                return false;
            }
        }
        return true;
    }

    private static long[] fastestLast(List<StreamSpec> streams) {
        return streams.stream().mapToLong(StreamSpec::bytesPerSecond).sorted().toArray();
    }

    private static boolean margins(Margins hard, Margins easy) {
        return hard.buffer() >= easy.buffer()
                && hard.rate() >= easy.rate()
                && hard.port() >= easy.port()
                && hard.playback() >= easy.playback()
                && hard.longestStallMs() <= easy.longestStallMs()
                && hard.closeMs() <= easy.closeMs();
    }
}
