package tracksoak.bench.phase.run;

import java.util.List;
import tracksoak.bench.stream.Allotment;
import tracksoak.profiles.Session;
import tracksoak.profiles.StreamSpec;

/**
 * What a plan writes, known beforehand: how much room it needs and how much it wears the drive.
 *
 * @param takesBytes all takes of the plan at their usual length, headers and padding included
 * @param longestTakesBytes the same at their longest, as far as there is room
 * @param fillBytes most the fill may write, 0 for a plan without
 * @param fillWantedBytes what the fill writes at least before it may end as steady: what the session itself would write;
 *     of a whole space all of it
 * @param copyBytes most the copy may write, 0 for a plan without
 * @param mixBytes what a mixdown writes, 0 for a plan without
 * @param refillBytes most a second fill writes after the first was deleted, 0 for none
 * @param againBytes most that is written besides and takes no room of its own in the end: headers written a second time
 *     when their file is closed, and those of the files a take in rounds has deleted
 * @param leastBytes least room the run needs besides the reserve
 */
public record Budget(
        long takesBytes,
        long longestTakesBytes,
        long fillBytes,
        long fillWantedBytes,
        long copyBytes,
        long mixBytes,
        long refillBytes,
        long againBytes,
        long leastBytes) {

    /** Room of one fill round of small files, below which a fill or a copy shows nothing, in bytes. */
    private static final long LEAST_FILL = 16L << 20;

    /** A take that has too little room needs at least some files of every track, each of so many s. */
    private static final double LEAST_ROUNDS_S = 20;

    /**
     * Works out the budget.
     *
     * @param alignment unit of what is written, in bytes
     * @param usableBytes room left on the drive
     * @param reserveBytes room that must stay free
     */
    public static Budget of(Session session, Plan plan, int alignment, long usableBytes, long reserveBytes) {
        long before = takeBytes(session, plan.takeBeforeS(), alignment);
        long after = takeBytes(session, plan.takeAfterS(), alignment);
        long takes = before + after;
        long mix = mixBytes(session, plan.playbackS(), alignment);
        long free = Math.max(0, usableBytes - reserveBytes);
        long wholeCopy = takeBytes(session, plan.copyS(), alignment);
        long copy = Math.max(0, Math.min(wholeCopy, free - mix));
        long fill = plan.fillCapS() <= 0 ? 0 : Math.max(0, free - before);
        long longest =
                Math.max(after, Math.min(free - session.aheadBytes(), takeBytes(session, plan.takeMostS(), alignment)));
        long wanted = plan.wholeSpace() ? fill : Math.min(session.bytesPerSecond() * session.lengthS(), fill);
        long refill = plan.refillCapS() > 0 ? free : 0;
        long played = plan.playbackS() > 0 ? wholeCopy + mix : 0;
        long taken = plan.wholeSpace() ? Math.min(takes, takeBytes(session, LEAST_ROUNDS_S, alignment)) : takes;
        boolean flatOut = plan.fillCapS() > 0 || plan.copyS() > 0;
        long least = Math.max(taken + played, flatOut ? LEAST_FILL : 0);
        if (plan.takeBeforeS() + plan.takeAfterS() > 0 && flatOut && !plan.wholeSpace()) {
            // what was filled is deleted before the take after it
            least = Math.max(before + LEAST_FILL, after);
        }
        least += plan.takeBeforeS() + plan.takeAfterS() > 0 ? session.aheadBytes() : 0;
        return new Budget(
                takes,
                before + longest,
                fill,
                wanted,
                copy,
                mix,
                refill,
                againBytes(session, plan, alignment, free, takes, fill),
                least);
    }

    private static long againBytes(
            Session session, Plan plan, int alignment, long free, long takesBytes, long fillBytes) {
        long limit = session.fileLimitBytes();
        boolean rounds = plan.wholeSpace() && takesBytes > TakePhase.USED_OF_ROOM * free;
        long headers = 0;
        for (StreamSpec stream : session.streams()) {
            double share = stream.bytesPerSecond() / (double) session.bytesPerSecond();
            headers += files(stream, limit, plan.takeBeforeS(), alignment);
            headers += files(stream, limit, plan.copyS(), alignment);
            headers += rounds
                    ? 2 * filesOfRounds(stream, limit, plan.takeAfterS(), alignment, (long) (free * share))
                    : files(stream, limit, plan.takeMostS(), alignment);
            headers += fillBytes > 0
                    ? (plan.refillCapS() > 0 ? 2 : 1)
                            * ((long) (fillBytes * share) / leastOfFile(stream, limit, alignment) + 2)
                    : 0;
        }
        for (StreamSpec stream : session.mixStreams()) {
            headers += files(stream, limit, plan.playbackS(), alignment);
        }
        return (headers + 1) * alignment
                + rewrittenBytes(session, plan, alignment)
                + Probes.mostBytes(session, plan, free);
    }

    /** Headers written anew while a take goes on, at most. */
    private static long rewrittenBytes(Session session, Plan plan, int alignment) {
        double seconds = plan.takeBeforeS() + plan.takeMostS();
        return session.headerS() <= 0
                ? 0
                : session.streams().size() * (long) Math.ceil(seconds / session.headerS()) * alignment;
    }

    /** Files a stream is split into in {@code seconds}, at most. */
    private static long files(StreamSpec stream, long fileBytes, double seconds, int alignment) {
        return seconds <= 0
                ? 0
                : (long) Math.ceil(stream.bytesPerSecond() * seconds) / leastOfFile(stream, fileBytes, alignment) + 1;
    }

    /** The same where the room of the stream is reused, and cut up for it. */
    private static long filesOfRounds(
            StreamSpec stream, long fileLimitBytes, double seconds, int alignment, long roomBytes) {
        long room = (long) (roomBytes * TakePhase.USED_OF_ROOM);
        long file = Allotment.fileBytes(room, fileLimitBytes, alignment);
        // the room is measured anew when the take begins, and may be one block smaller then
        return file < 2L * alignment ? 0 : 1 + files(stream, file - alignment, seconds, alignment);
    }

    /** The least a file holds before the stream goes on in another: its last chunk no longer fits. */
    private static long leastOfFile(StreamSpec stream, long fileBytes, int alignment) {
        return Math.max(alignment, fileBytes - 2L * alignment - stream.chunkBytes());
    }

    /** What a take of {@code seconds} writes, headers and padding included. */
    static long takeBytes(Session session, double seconds, int alignment) {
        return bytes(session.streams(), session.fileLimitBytes(), seconds, alignment);
    }

    /** What the mix of {@code seconds} takes, headers and padding included; 0 where none is written. */
    static long mixBytes(Session session, double seconds, int alignment) {
        return bytes(session.mixStreams(), session.fileLimitBytes(), seconds, alignment);
    }

    private static long bytes(List<StreamSpec> streams, long fileLimitBytes, double seconds, int alignment) {
        if (seconds <= 0) {
            return 0;
        }
        long bytes = 0;
        for (StreamSpec stream : streams) {
            long data = (long) Math.ceil(stream.bytesPerSecond() * seconds);
            long files = data / Math.max(1, fileLimitBytes - alignment) + 1;
            bytes += data + (files + 1) * alignment;
        }
        return bytes;
    }

    /** What the run writes if nothing asks for more, in bytes. */
    public long usualBytes() {
        return takesBytes
                + fillWantedBytes
                + Math.min(FillPhase.AGAIN_TIMES * fillWantedBytes, refillBytes)
                + copyBytes
                + mixBytes;
    }

    /** Most the run may write, in bytes: the wear. */
    public long mostBytes() {
        return longestTakesBytes + fillBytes + refillBytes + copyBytes + mixBytes + againBytes;
    }
}
