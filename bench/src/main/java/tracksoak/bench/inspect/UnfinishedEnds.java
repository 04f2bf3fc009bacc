package tracksoak.bench.inspect;

import java.util.List;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.WaveHeader;
import tracksoak.report.record.facts.inspection.FindingKind;

/**
 * Where audio ends in files whose header was never finished: not where the file does, if space was given to it in advance and nothing was
 * written there. Pure.
 */
final class UnfinishedEnds {

    private UnfinishedEnds() {}

    /** What was found, at the end of the audio where it is about such a header; of tracks recorded together, that of the longest. */
    static Found of(Found found, List<SilentEnds.Looked> take) {
        if (found.kind() != FindingKind.HEADER_UNFINISHED) {
            return found;
        }
        double latestS = take.stream()
                .filter(one -> unfinished(one.line()))
                .mapToDouble(one -> one.line().place(end(one)).seconds())
                .max()
                .orElse(Double.MAX_VALUE);
        return take.stream()
                .map(SilentEnds.Looked::line)
                .filter(line -> line.name().equals(found.where()))
                .findFirst()
                .map(line -> earlier(found, line, latestS))
                .orElse(found);
    }

    private static Found earlier(Found found, TrackLine line, double endS) {
        long end = Math.round((endS - line.startS()) * line.format().sampleRateHz());
        Long at = found.atSample();
        return at == null || at <= end
                ? found
                : line.found(found.kind(), found.weight(), found.where(), end, 0, found.detail());
    }

    private static boolean unfinished(TrackLine line) {
        List<RecordedFile> files = line.inTime();
        return files.get(files.size() - 1).header().finish() == WaveHeader.Finish.NEVER;
    }

    /** The sample behind the last that is not zero, or erased, in all tracks of its files. */
    private static long end(SilentEnds.Looked looked) {
        long all = looked.line().track().samples();
        return looked.zeros().stream()
                .filter(zeros -> zeros.channel() < 0 && zeros.toTheEnd() && zeros.until() == all)
                .mapToLong(BorderZeros::from)
                .min()
                .orElse(all);
    }
}
