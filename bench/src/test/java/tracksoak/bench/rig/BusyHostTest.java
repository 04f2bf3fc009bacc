package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static tracksoak.bench.rig.Verdicts.missed;
import static tracksoak.bench.rig.Verdicts.phase;
import static tracksoak.bench.rig.Verdicts.told;
import static tracksoak.bench.rig.Verdicts.verdict;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Isolated;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict.Outcome;

/** What the computer does must not be laid at the drive's door, nor hide what the drive does. */
@NeedsRig
@Isolated("keeps the processors busy")
class BusyHostTest {

    private static final int TRACKS = 8;

    @Test
    void aBusyHostNeverFailsAnHonestDrive() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXT4, 256);
                Hogs hogs = new Hogs(6)) {
            rig.drive().set(Faults.none().rate(10_000_000));

            Qualifying run = Qualifying.of(rig);

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.take(8), 120);

            assertThat(hogs.running()).isTrue();
            assertThat(verdict(record).outcome()).as(told(record)).isIn(Outcome.PASS, Outcome.NO_VERDICT);
            PhaseFacts take = phase(record, PhaseKind.TAKE);
            if (verdict(record).outcome() == Outcome.PASS) {
                assertThat(take.lostMs()).isZero();
            } else {
                assertThat(verdict(record).reasons().toString())
                        .as(told(record))
                        .contains("computer");
                assertThat(missed(record)).isEmpty();
            }
            run.leavesNothing();
        }
    }

    @Test
    void aBusyHostNeverPassesABadDrive() throws IOException {
        try (Rig rig = Rig.of(FileSystem.EXT4, 256);
                Hogs hogs = new Hogs(6)) {
            rig.drive().set(Faults.none().rate(TRACKS * Shows.TRACK / 2));

            Qualifying run = Qualifying.of(rig);

            RunRecord record = run.run(Shows.tracks(TRACKS), Shows.take(10), 120);

            assertThat(hogs.running()).isTrue();
            assertThat(verdict(record).outcome()).as(told(record)).isIn(Outcome.FAIL, Outcome.NO_VERDICT);
            assertThat(missed(record))
                    .as(told(record))
                    .isSubsetOf("lost-audio", "buffer-margin", "rate-margin", "longest-stall", "close-time");
            if (verdict(record).outcome() == Outcome.FAIL) {
                assertThat(missed(record)).as(told(record)).containsAnyOf("lost-audio", "buffer-margin", "rate-margin");
            }
            run.leavesNothing();
        }
    }

    /** Processes that compute for ever. */
    private static final class Hogs implements AutoCloseable {
        private final List<Process> processes = new ArrayList<>();

        private Hogs(int howMany) throws IOException {
            for (int i = 0; i < howMany; i++) {
                processes.add(new ProcessBuilder("sh", "-c", "while :; do :; done").start());
            }
        }

        private boolean running() {
            return processes.stream().allMatch(Process::isAlive);
        }

        @Override
        public void close() {
            processes.forEach(Process::destroyForcibly);
        }
    }
}
