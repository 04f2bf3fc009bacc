package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static tracksoak.bench.rig.Verdicts.criterion;
import static tracksoak.bench.rig.Verdicts.failed;
import static tracksoak.bench.rig.Verdicts.failedOnlyBy;
import static tracksoak.bench.rig.Verdicts.passedUnlessTheHostWasLate;
import static tracksoak.bench.rig.Verdicts.phase;
import static tracksoak.bench.rig.Verdicts.told;

import java.util.Objects;
import org.junit.jupiter.api.Test;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.PlaybackFacts;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.RoundsFacts;
import tracksoak.report.record.facts.RunRecord;

/** Whole shows on small real drives: all the room proven, the room reused, the room not there; and tracks played. */
@NeedsRig
class ShowsOnDrivesTest {

    private static final long MIB = 1 << 20;
    private static final int TRACKS = 8;
    private static final int BLOCK = 4096;

    @Test
    void aFullShowProvesAllTheRoomThereIs() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 128)) {
            Qualifying run = Qualifying.of(rig);
            long free = rig.path().toFile().getUsableSpace();
            rig.drive().set(Faults.none().rate(15_000_000));

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.fullShow(4), 120);

            passedUnlessTheHostWasLate(record);
            assertThat(criterion(record, "intact").met()).as(told(record)).isTrue();
            PhaseFacts fill = phase(record, PhaseKind.FILL);
            assertThat(Objects.requireNonNull(fill.fill()).ended()).isEqualTo(FillFacts.Ended.FULL);
            // all but the reserve of 16 MiB, a header per track, the last chunk, and the blocks that map the files
            assertThat(fill.bytes()).isBetween(free - 16 * MIB - 2 * MIB, free - 16 * MIB);
            ReadBackFacts first = readBack(record, 1);
            assertThat(first.good() * BLOCK).as("proven").isEqualTo(fill.bytes());
            assertThat(rig.drive().log().payloadBytes())
                    .as("by the drive's own log")
                    .isEqualTo(fill.bytes()
                            + phase(record, PhaseKind.TAKE).bytes()
                            + phase(record, PhaseKind.CLOSE).bytes());
            run.leavesNothing();
        }
    }

    @Test
    void aTakeLongerThanTheRoomGoesInRounds() {
        Session session = Shows.tracks(3 * TRACKS);
        try (Rig rig = Rig.of(FileSystem.EXT4, 64)) {
            Qualifying run = Qualifying.of(rig).reserveBytes(26 * MIB);
            rig.drive().set(Faults.none().rate(20_000_000));

            RunRecord record = run.run(session, Shows.fullShow(14), 120);

            // a minute of 24 tracks does not fit; nothing else is wrong
            failedOnlyBy(record, "room");
            PhaseFacts take = phase(record, PhaseKind.TAKE);
            RoundsFacts rounds = Objects.requireNonNull(take.rounds(), told(record));
            long written = take.bytes() + phase(record, PhaseKind.CLOSE).bytes();
            long kept = readBack(record, 4).good() * BLOCK;
            assertThat(rounds.deletedFiles()).isPositive();
            assertThat(written).isGreaterThan(rounds.roomBytes());
            assertThat(kept).isLessThanOrEqualTo(rounds.roomBytes());
            assertThat(kept + rounds.deletedBytes() - rounds.deletedFiles() * BLOCK)
                    .isEqualTo(written);
            assertThat(readBack(record, 4).bad()).as(told(record)).isZero();
            run.leavesNothing();
        }
    }

    @Test
    void aFullShowFindsOutFakeCapacity() {
        long real = 64 * MIB;
        try (Rig rig = Rig.of(FileSystem.EXFAT, 128)) {
            Qualifying run = Qualifying.of(rig);
            rig.drive().set(Faults.none().wrap(real, 32 * MIB));

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.fullShow(2), 180);

            failed(record, "intact");
            ReadBackFacts first = readBack(record, 1);
            assertThat(Objects.requireNonNull(phase(record, PhaseKind.FILL).fill())
                            .ended())
                    .isEqualTo(FillFacts.Ended.FULL);
            assertThat(first.good() * BLOCK).as("no more than is there").isBetween(real / 4, real);
            assertThat((first.misplaced() + first.stale()) * BLOCK)
                    .as("what was written over is in doubt, all of it")
                    .isGreaterThan(phase(record, PhaseKind.FILL).bytes() - real);
            assertThat(first.good() + first.bad()).isEqualTo(first.blocks());
            run.leavesNothing();
        }
    }

    @Test
    void aReaderTooSlowFallsSilent() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 128)) {
            rig.drive().set(Faults.none().rate(15_000_000));
            Qualifying run = Qualifying.of(rig)
                    .when(
                            PhaseKind.PLAYBACK,
                            1,
                            () -> rig.drive().set(Faults.none().readRate(TRACKS * Shows.TRACK * 4 / 10)));
            Session session = Shows.playback(TRACKS);

            RunRecord record = run.run(session, Shows.take(12).fitting(session), 120);

            failed(record, "playback");
            assertThat(criterion(record, "intact").met()).as(told(record)).isTrue();
            PhaseFacts played = phase(record, PhaseKind.PLAYBACK);
            PlaybackFacts facts = Objects.requireNonNull(played.playback());
            assertThat(facts.underruns()).isPositive();
            // from 1 s on four tenths come: 11 s × 0.6 − 2 s of buffer, less the round of 455 ms under way
            assertThat(facts.silentMs()).as(told(record)).isGreaterThan(11_000 * 0.6 - 2_000 - 2 * 455);
            assertThat(facts.silentMs()).isLessThan(12_000);
            run.leavesNothing();
        }
    }

    @Test
    void aReaderThatKeepsUpPlaysAll() {
        try (Rig rig = Rig.of(FileSystem.EXT4, 128)) {
            rig.drive().set(Faults.none().rate(15_000_000).readRate(15_000_000));
            Qualifying run = Qualifying.of(rig);
            Session session = Shows.playback(TRACKS);

            RunRecord record = run.run(session, Shows.take(5).fitting(session), 120);

            passedUnlessTheHostWasLate(record);
            assertThat(criterion(record, "intact").met()).as(told(record)).isTrue();
            assertThat(Objects.requireNonNull(phase(record, PhaseKind.PLAYBACK).playback())
                            .fromDevice())
                    .isEqualTo(ReadBackFacts.Origin.DEVICE);
            run.leavesNothing();
        }
    }

    private static ReadBackFacts readBack(RunRecord record, int phase) {
        return Objects.requireNonNull(record.phases().get(phase).readBack(), told(record));
    }
}
