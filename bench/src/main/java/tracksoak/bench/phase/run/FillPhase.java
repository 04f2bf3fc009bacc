package tracksoak.bench.phase.run;

import java.io.IOException;
import java.util.Arrays;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.timeleft.Pace;
import tracksoak.bench.phase.timeleft.WorkAhead;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.FillFacts.Ended;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.stats.SteadyState;

/**
 * Writes all streams in turn as fast as the drive takes them, until as much is written as the session itself would write and
 * the rate is steady (SNIA PTS 2.0.2 §2.1.24), or five rounds later if it does not become so; or until it has been below the
 * need for so long that it stays there, and would come to its cap before. It fills the room there is when its turn comes but the reserve.
 */
public final class FillPhase extends FlatOutPhase {

    /** So many rounds below the need are taken for good, all of them if it was never faster. */
    private static final int ROUNDS_FOR_GOOD = 60;

    /** What comes by more bytes than a show writes is met by some shows; looked for as far as the time for it reaches. */
    static final int AGAIN_TIMES = 2;

    private final Budget expected;
    private final double capS;
    private final double needBytesPerSecond;
    private final long enoughBytes;
    /** Whether it goes on until the room is full whatever the rate does. */
    private final boolean whole;

    private boolean steady;
    private int roundsBeyond;

    /**
     * A fill to come.
     *
     * @param expected the budget as it was before the run
     */
    public FillPhase(Bench bench, String label, int pass, Budget expected) {
        this(bench, label, pass, expected, bench.request.plan().fillCapS(), 1);
    }

    private FillPhase(Bench bench, String label, int pass, Budget expected, double capS, int times) {
        super(bench, PhaseKind.FILL, label, pass, capS);
        this.capS = capS;
        Session session = bench.request.session();
        this.expected = expected;
        this.needBytesPerSecond = session.margins().rate() * session.bytesPerSecond();
        this.enoughBytes = times * session.bytesPerSecond() * session.lengthS();
        this.whole = bench.request.plan().wholeSpace();
        this.steady = whole;
    }

    /** One that writes what the session writes so often once more, or for as long as the plan allows. */
    static FillPhase again(Bench bench, String label, int pass, Budget expected) {
        return new FillPhase(bench, label, pass, expected, bench.request.plan().refillCapS(), AGAIN_TIMES);
    }

    @Override
    long roomIn(long usableBytes) {
        return Math.max(0, usableBytes - bench.request.reserveBytes());
    }

    @Override
    void writeAll(BooleanSupplier stop) throws IOException {
        ChunkStamper stamper = bench.stamper(table);
        int streams = table.streams();
        for (int stream = 0; stream < streams; stream++) {
            files.begin(stream);
        }
        long left = room() - (long) streams * bench.drive.roomUnitBytes();
        for (int stream = 0; !stop.getAsBoolean(); stream = stream + 1 == streams ? 0 : stream + 1) {
            int chunk = table.chunkBytes(stream);
            if (chunk + bench.drive.roomUnitBytes() > left) {
                finish(Ended.FULL);
                break;
            }
            if (files.mustSplit(stream, chunk)) {
                change(stream);
                left -= bench.drive.roomUnitBytes();
            }
            left -= chunk;
            if (append(stamper, stream, chunk)) {
                break;
            }
        }
        for (int stream = 0; stream < streams; stream++) {
            files.rewriteHeader(stream);
            files.flushWhole(stream);
            files.close(stream);
        }
        bench.drive.syncFolder();
    }

    @Override
    long wantedBytes() {
        return whole ? room() : Math.min(enoughBytes, room());
    }

    @Override
    boolean steady() {
        return steady;
    }

    @Override
    @Nullable
    Ended endAfter(double[] rounds) {
        if (whole) {
            return null;
        }
        steady = isSteady(rounds);
        if (bytes() >= wantedBytes()) {
            roundsBeyond++;
            return steady ? Ended.STEADY : roundsBeyond > SteadyState.ROUNDS ? Ended.ENOUGH : null;
        }
        return steady && slowForGood(rounds) ? Ended.BELOW_NEED : null;
    }

    private boolean slowForGood(double[] rounds) {
        int from = Math.max(0, rounds.length - ROUNDS_FOR_GOOD);
        double rate = Arrays.stream(rounds, from, rounds.length).average().orElse(0);
        return hopeless(
                rate,
                (wantedBytes() - bytes()) / rate,
                rounds.length * bench.request.plan().roundS());
    }

    /** Below the need, and not done before its cap. A drive that comes to its end must be as used as by a show. */
    private boolean hopeless(double bytesPerSecond, double byBytesS, double elapsedS) {
        return bytesPerSecond < needBytesPerSecond && elapsedS + byBytesS > capS;
    }

    /** A fill that is too slow ends as soon as it is steady, any other once it has written what it should, too. */
    @Override
    double leftByRuleS(double elapsedS, double byBytesS, double bytesPerSecond) {
        if (whole) {
            return byBytesS;
        }
        double roundS = bench.request.plan().roundS();
        double fifthS = SteadyState.ROUNDS * roundS - elapsedS;
        // after the fifth round any may be the last
        double roundsS = fifthS > 0 ? fifthS : roundS;
        return hopeless(bytesPerSecond, byBytesS, elapsedS) ? roundsS : Math.max(byBytesS, roundsS);
    }

    @Override
    double beforehandS(WorkAhead ahead) {
        long bytes = whole ? expected.fillBytes() : expected.fillWantedBytes();
        double byBytes = ahead.pace.secondsToWrite((double) bytes);
        if (byBytes <= 0) {
            return byBytes < 0 ? Pace.UNKNOWN : 0;
        }
        double rate = bytes / byBytes;
        double seconds = Math.min(capS, leftByRuleS(0, byBytes, rate));
        ahead.leaves(Math.min((double) expected.fillBytes(), seconds * rate));
        return seconds;
    }
}
