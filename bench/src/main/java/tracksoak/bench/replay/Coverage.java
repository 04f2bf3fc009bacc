package tracksoak.bench.replay;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.profiles.Demand;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.StreamSpec;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.IntColumn;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Series;

/** What a run's measurement covers: which other sessions its service times can be played for. */
final class Coverage {

    /** A stream must write so many chunks in the shortest take. */
    private static final int LEAST_CHUNKS = 3;

    /** The shortest take must be so many times as long as the buffer, or a stall that empties it could not have been seen. */
    private static final double LEAST_BUFFERS = 2;

    /** A delay of the computer beyond this part of the buffer could hide in the service times. */
    private static final double MOST_HOST = 0.1;

    /** A flush longer than this depends on what it finds to write. */
    private static final double LONG_FLUSH_MS = 20;

    private final List<String> refusals = new ArrayList<>();

    private Coverage() {}

    /** Why {@code other} cannot be replayed from {@code run}, one sentence each; empty if it can. */
    static List<String> refusals(Session other, RunRecord run) {
        Coverage coverage = new Coverage();
        coverage.theRun(run, other);
        coverage.theSession(other, run);
        return List.copyOf(coverage.refusals);
    }

    private void theRun(RunRecord run, Session other) {
        List<PhaseFacts> takes = takes(run);
        refuseIf(run.state() != RunState.COMPLETE, "The run did not come to its end.");
        refuseIf(takes.isEmpty(), "The run made no take.");
        for (PhaseFacts phase : run.phases()) {
            refuseIf(
                    phase.fault() != null || !phase.complete(),
                    "A phase of the run was cut short, so what the drive would have done is not known.");
        }
        for (PhaseFacts take : takes) {
            refuseIf(take.rounds() != null, "The take was made in rounds that reuse the room.");
            refuseIf(
                    Tape.of(take, run.method().chunkBytes()) == null,
                    "The record does not hold the times of writes and flushes second by second: it was made by an older"
                            + " version.");
            refuseIf(
                    take.seconds() < LEAST_BUFFERS * other.bufferS(),
                    "The take of " + Units.seconds(take.seconds())
                            + " is too short to have seen a stall as long as a buffer" + " of "
                            + Units.seconds(other.bufferS()) + ".");
            refuseIf(
                    hostMs(take.hostDelays()) > MOST_HOST * 1e3 * other.bufferS(),
                    "The computer was late during the take, and its delays cannot be told from the drive's times.");
        }
    }

    private void theSession(Session other, RunRecord run) {
        Session made = run.session();
        refuseIf(
                made.kind() != SessionKind.RECORDING || other.kind() != SessionKind.RECORDING,
                "Only a recording can be replayed for a recording.");
        refuseIf(made.layout() != other.layout(), "The session lays its files out in another way.");
        refuseIf(
                made.chunkBytes() != other.chunkBytes(),
                "The session writes chunks of " + Units.bytes(other.chunkBytes()) + ", the run wrote "
                        + Units.bytes(made.chunkBytes()) + ".");
        refuseIf(made.writers() != 1 || other.writers() != 1, "More than one write was, or would be, in flight.");
        refuseIf(made.arrival() != other.arrival(), "The session's chunks fall due in another pattern.");
        refuseIf(made.fileLimitBytes() != other.fileLimitBytes(), "The session changes files at another size.");
        refuseIf(
                made.flushS() != other.flushS(),
                "The session flushes at another interval, and what a flush takes hangs on it.");
        refuseIf(
                other.streams().size() > made.streams().size(),
                "The session keeps " + other.streams().size() + " files open, the run kept "
                        + made.streams().size() + ".");
        refuseIf(
                other.bytesPerSecond() > made.bytesPerSecond(),
                "The session demands " + Units.rate((double) other.bytesPerSecond()) + ", the takes presented "
                        + Units.rate((double) made.bytesPerSecond()) + ".");
        boolean filled = run.phases().stream().anyMatch(phase -> phase.kind() == PhaseKind.FILL);
        refuseIf(
                filled && Demand.of(other).dataBytes() > Demand.of(made).dataBytes(),
                "The session writes more in all than the run's session does, which set the length of the fill.");
        refuseIf(
                other.layout() == FileLayout.INTERLEAVED
                        && other.groups().size() != made.groups().size(),
                "The session has another number of interleaved files.");
        for (StreamSpec stream : other.streams()) {
            refuseIf(
                    tooSlow(stream, run) || noRoom(stream, other, run),
                    "A stream of the session would write too few chunks in a take as long as the run's.");
        }
    }

    /** Why a PASS cannot be promised although all ways pass: the run asked less of the drive than {@code other} would. */
    static Optional<String> bar(Session other, RunRecord run) {
        for (PhaseFacts take : takes(run)) {
            if (take.lostMs() > 0 && other.bytesPerSecond() * take.seconds() > take.bytes()) {
                return Optional.of("The run lost audio, so its take wrote " + Units.bytes(take.bytes())
                        + ", less than the session would.");
            }
            if (take.lostMs() > 0 && longestFlushMs(take) > LONG_FLUSH_MS) {
                return Optional.of("The run lost audio, and its flushes took up to "
                        + Units.ms(longestFlushMs(take))
                        + ": where the recorder keeps up, a flush finds more to write at once.");
            }
        }
        for (PhaseFacts phase : run.phases()) {
            FillFacts fill = phase.fill();
            boolean early = fill != null
                    && (fill.ended() == FillFacts.Ended.BELOW_NEED || fill.ended() == FillFacts.Ended.CAP)
                    && fill.cliffAtBytes() == null;
            if (early && phase.bytes() < Demand.of(other).dataBytes()) {
                return Optional.of("The fill ended after " + Units.bytes(phase.bytes())
                        + ", less than the session writes in all.");
            }
        }
        return Optional.empty();
    }

    private static double longestFlushMs(PhaseFacts take) {
        Series series = take.series();
        IntColumn longest = series == null ? null : series.maxFlushMs();
        return longest == null ? 0 : longest.stream().max().orElse(0);
    }

    private static boolean tooSlow(StreamSpec stream, RunRecord run) {
        double least =
                takes(run).stream().mapToDouble(PhaseFacts::seconds).min().orElse(0);
        return stream.bytesPerSecond() * least
                < LEAST_CHUNKS * (double) run.method().chunkBytes();
    }

    private static boolean noRoom(StreamSpec stream, Session other, RunRecord run) {
        int chunk = StreamTable.roundUp(
                stream.chunkBytes(), Math.max(1, run.method().alignmentBytes()));
        return Math.floor(other.bufferS() * stream.bytesPerSecond()) < chunk;
    }

    /** All takes of a run, in order. */
    static List<PhaseFacts> takes(RunRecord run) {
        return run.phases().stream()
                .filter(phase -> phase.kind() == PhaseKind.TAKE)
                .toList();
    }

    private static double hostMs(@Nullable HostDelays host) {
        return host == null ? 0 : Math.max(host.canaryMaxMs(), host.ownMaxMs()) + host.suspendedMs();
    }

    private void refuseIf(boolean reason, String sentence) {
        if (reason && refusals.stream().noneMatch(each -> Objects.equals(each, sentence))) {
            refusals.add(sentence);
        }
    }
}
