package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static tracksoak.bench.rig.Verdicts.phase;
import static tracksoak.bench.rig.Verdicts.told;

import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Isolated;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.Latency;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Stall;

/** The bench's own figures against two witnesses: the backend's request log, and the kernel's throttle. */
@NeedsRig
@Isolated("holds what it measures against narrow limits")
class AgreementTest {

    /** 35 ms of transfer per chunk, and one in some twenty stalls: the 99th percentile lies among the stalls. */
    @Test
    void bytesWritesStallsAndServiceTimesAreWhatTheDriveSaw() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 256)) {
            rig.drive().set(Faults.none().rate(2_000_000).stallEvery(600, 2_500));

            Qualifying run = Qualifying.of(rig);

            RunRecord record = run.run(Shows.tracks(4), Shows.take(20), 90);

            PhaseFacts take = phase(record, PhaseKind.TAKE);
            PhaseFacts close = phase(record, PhaseKind.CLOSE);
            RequestLog whole = rig.drive().log();
            RequestLog log = whole.during(take);
            List<RequestLog.Entry> chunks = log.chunks(Shows.CHUNK);
            PhaseFacts probes = phase(record, PhaseKind.PROBES);
            assertThat(take.bytes() + close.bytes() + probes.bytes())
                    .as(told(record))
                    .isEqualTo(whole.payloadBytes());
            assertThat(take.bytes()).isEqualTo(log.payloadBytes());
            assertThat(take.operations()).isEqualTo(chunks.size());
            stallsOneForOne(take, log);
            Latency service = Objects.requireNonNull(take.service());
            double p50Us = RequestLog.serviceNs(chunks, 0.5) / 1e3;
            double p99Us = RequestLog.serviceNs(chunks, 0.99) / 1e3;
            assertThat(service.p50Us()).isCloseTo(p50Us, within(p50Us * 0.1));
            assertThat(service.p99Us()).isCloseTo(p99Us, within(p99Us * 0.1));
            assertThat(service.maxUs() * 1e3).isGreaterThan(RequestLog.serviceNs(chunks, 1) * 0.99);
            run.leavesNothing();
        }
    }

    private static void stallsOneForOne(PhaseFacts take, RequestLog log) {
        List<RequestLog.Entry> stalls = log.stalls();
        assertThat(stalls).hasSizeBetween(5, 9);
        assertThat(take.stallCount()).isEqualTo(stalls.size());
        long zeroNs = log.all().get(0).startNs();
        for (int i = 0; i < stalls.size(); i++) {
            Stall seen = take.stalls().get(i);
            double stalledMs = stalls.get(i).serviceNs() / 1e6;
            assertThat(seen.ms()).isBetween(stalledMs * 0.99, stalledMs * 1.1 + 100);
            assertThat(seen.atS() - take.stalls().get(0).atS())
                    .isCloseTo((stalls.get(i).startNs() - stalls.get(0).startNs()) / 1e9, within(0.2));
            assertThat(stalls.get(i).startNs()).isGreaterThan(zeroNs);
        }
    }

    /**
     * An honest drive of 5 MiB/s, kept so by the kernel. Its limit is kept in slices of 100 ms: after every pause a burst
     * may run ahead by up to one slice, by how much depends on where in a slice it falls (Linux, block/blk-throttle.c,
     * {@code tg_within_bps_limit} rounds the time elapsed up to whole slices). A chunk of 16 MiB takes 3.2 s, of which a
     * slice is 3 %. Busy fraction = demand ÷ rate; floor = rate.
     */
    @Test
    @NeedsRig(throttle = true)
    void busyFractionAndFloorAreTheKernelsThrottle() {
        long rate = 5L << 20;
        Session session = Shows.interleaved(30, 16 << 20, 9);
        try (ThrottledDrive drive = ThrottledDrive.of(512, rate)) {
            Qualifying run = Qualifying.of(drive);

            RunRecord record = run.run(session, Shows.takeFillTake(0, 14, 15.4, 1), 150);

            PhaseFacts take = phase(record, PhaseKind.TAKE);
            double expected = session.bytesPerSecond() / (double) rate;
            assertThat(take.lostMs()).isZero();
            assertThat(take.busyFraction() / wholeChunksShare(session, take) / expected)
                    .as(told(record))
                    .isCloseTo(1, within(0.05));
            PhaseFacts fill = phase(record, PhaseKind.FILL);
            assertThat(Objects.requireNonNull(fill.fill()).floorBytesPerSecond() / rate)
                    .as(told(record))
                    .isCloseTo(1, within(0.05));
            DeviceEvidence device = Objects.requireNonNull(fill.device());
            assertThat(device.bytesWritten() / (double) fill.bytes()).isBetween(1.0, 1.05);
            run.leavesNothing();
        }
    }

    /** A take holds a whole number of chunks, 3 in 15.4 s: their share of what was produced meanwhile. */
    private static double wholeChunksShare(Session session, PhaseFacts take) {
        return take.bytes() / (session.bytesPerSecond() * take.seconds());
    }
}
