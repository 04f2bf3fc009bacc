package tracksoak.bench.worth;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.oracle.LoopRun;
import tracksoak.bench.recorder.loop.TakeFigures;
import tracksoak.bench.simulated.SimulatedDrive;
import tracksoak.bench.stream.Stamp;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.Stall;

/**
 * The truth: whole shows at the session's pace, on the same kind of drive with other chances, in the state a drive has at
 * its second show. It has been written to by as many bytes as a show has, they were deleted, and it lay for an hour. What is
 * lost is counted by the recorder loop alone; no fact of a run and no rule of a verdict takes part.
 *
 * @param played shows that were played
 * @param lost how many of them lost audio
 * @param good whether all of them met every criterion a show can meet, with its margin
 */
record Shows(int played, int lost, boolean good) {

    private static final int PIECE = 4 << 20;
    private static final long REST_NS = 3_600_000_000_000L;

    /**
     * Plays them.
     *
     * @param count how many
     * @param all whether to go on when one has shown that the drive is not good
     */
    static Shows of(Candidate candidate, int count, boolean all) {
        int played = 0;
        int lost = 0;
        boolean good = true;
        while (played < count && (all || good)) {
            Show show = play(candidate, played);
            played++;
            lost += show.lostMs() > 0 ? 1 : 0;
            good &= show.meets(candidate.session());
        }
        return new Shows(played, lost, good);
    }

    private static Show play(Candidate candidate, int number) {
        VirtualClock clock = new VirtualClock(0);
        SimulatedDrive drive = candidate.sibling(number).plug(clock, LoopRun.HANG_LIMIT_NS);
        Session session = candidate.session();
        try {
            used(drive, session.bytesPerSecond() * session.lengthS());
            clock.advance(REST_NS);
            LoopRun run = LoopRun.fromRecord(session, drive, clock, (double) session.lengthS());
            TakeFigures take = run.play();
            double closeMs = run.close();
            return new Show(
                    take.worstLostMs(),
                    take.totals().peakMs(),
                    take.totals().busyNs() / (session.lengthS() * 1e9),
                    take.stalls().stream().mapToDouble(Stall::ms).max().orElse(0),
                    closeMs);
        } catch (IOException e) {
            throw new UncheckedIOException("seed " + candidate.seed(), e);
        }
    }

    private static void used(SimulatedDrive drive, long bytes) throws IOException {
        ByteBuffer piece = Stamp.ordered(ByteBuffer.allocate(PIECE));
        long written = 0;
        for (int file = 0; written < bytes; file++) {
            try (DriveFile before = drive.create("before-" + file)) {
                for (int at = 0; at < PIECE; at += Stamp.BLOCK) {
                    Stamp.header(piece, at, 1, file, 0, at / Stamp.BLOCK);
                }
                for (long position = 0; position < 1L << 30 && written < bytes; position += PIECE) {
                    before.write(piece.limit(PIECE).position(0), position);
                    written += PIECE;
                }
            }
        }
        for (String name : drive.list()) {
            drive.delete(name);
        }
        drive.syncFolder();
    }

    /** What one show was. */
    private record Show(double lostMs, double peakMs, double busy, double longestStallMs, double closeMs) {

        boolean meets(Session session) {
            var asked = session.margins();
            return lostMs == 0
                    && asked.buffer() * peakMs <= session.bufferS() * 1000
                    && asked.rate() * busy <= 1
                    && longestStallMs <= asked.longestStallMs()
                    && closeMs <= asked.closeMs();
        }
    }
}
