package tracksoak.report.page;

import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.CloseFacts;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.IntColumn;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.Series;

/** Fills, closes and read-backs with invented figures from a fixed seed. */
final class OtherPhases {

    private static final HostDelays CALM = new HostDelays(1.9, 6.5, 0.2, 1.4, 0, 0, true);

    private OtherPhases() {}

    /** A fill that writes at {@code fast} until {@code cliff} bytes, then at {@code slow}, both in B/s. */
    static PhaseFacts fill(long seed, int seconds, double fast, double slow, long cliff, @Nullable Fault fault) {
        Random random = new Random(seed);
        int[] kib = new int[seconds];
        long bytes = 0;
        for (int s = 0; s < seconds; s++) {
            boolean before = bytes < cliff;
            double wobble = 1 + random.nextGaussian() * (before ? 0.02 : 0.16);
            kib[s] = (int) Math.max(0, (before ? fast : slow) * wobble / 1024);
            bytes += kib[s] * 1024L;
        }
        boolean fell = cliff < bytes;
        double floor = (fell ? slow : fast) * 0.93;
        int[] zero = new int[seconds];
        int[] service = IntStream.range(0, seconds).map(s -> 9 + s % 7).toArray();
        return phase(
                PhaseKind.FILL,
                "2026-03-14T18:10:04Z",
                seconds,
                fault == null,
                bytes,
                new Series(
                        IntColumn.of(kib),
                        IntColumn.of(service),
                        IntColumn.of(zero),
                        IntColumn.of(IntStream.range(0, seconds).map(s -> 1000).toArray()),
                        IntColumn.of(zero)),
                new FillFacts(
                        fault != null
                                ? FillFacts.Ended.CUT_SHORT
                                : slow < TakeMaker.demand() ? FillFacts.Ended.BELOW_NEED : FillFacts.Ended.STEADY,
                        fault == null,
                        10,
                        List.of(slow, slow * 1.02, slow * 0.98, slow * 1.01, slow),
                        floor,
                        10,
                        fell ? cliff : null,
                        fell ? fast : null,
                        fell ? slow : null,
                        58_000_000_000L),
                null,
                null,
                fault);
    }

    static PhaseFacts close(double drain, double headers, double flush, double close, double directory, int files) {
        double total = drain + headers + flush + close + directory;
        return phase(
                PhaseKind.CLOSE,
                "2026-03-14T18:40:31Z",
                total / 1000,
                true,
                4096L * files,
                null,
                null,
                new CloseFacts(drain, headers, flush, close, directory, total, files),
                null,
                null);
    }

    static PhaseFacts readBack(ReadBackFacts found, double seconds, @Nullable Fault fault) {
        return phase(
                PhaseKind.READ_BACK,
                "2026-03-14T18:40:33Z",
                seconds,
                fault == null,
                (found.blocks() - found.unread()) * 4096,
                null,
                null,
                null,
                found,
                fault);
    }

    private static PhaseFacts phase(
            PhaseKind kind,
            String startedAt,
            double seconds,
            boolean complete,
            long bytes,
            @Nullable Series series,
            @Nullable FillFacts fill,
            @Nullable CloseFacts close,
            @Nullable ReadBackFacts readBack,
            @Nullable Fault fault) {
        boolean reads = kind == PhaseKind.READ_BACK;
        return PhaseFacts.builder(kind, startedAt)
                .seconds(seconds)
                .complete(complete)
                .bytes(bytes)
                .operations(bytes / 65536)
                .busyFraction(0.97)
                .series(series)
                .fill(fill)
                .close(close)
                .readBack(readBack)
                .device(new DeviceEvidence(reads ? 0 : (long) (bytes * 1.003), reads ? bytes : 0, bytes))
                .hostDelays(CALM)
                .fault(fault)
                .build();
    }
}
