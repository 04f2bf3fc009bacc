package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import tracksoak.bench.page.ServedBench;
import tracksoak.bench.tray.RunOrder;
import tracksoak.bench.tray.RunOrders;
import tracksoak.bench.tray.RunShelf;
import tracksoak.bench.tray.RunShelf.Sheet;
import tracksoak.bench.tray.Tray;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordFile;

/** Real devices behind one throttled link in one tray, each run a process of its own. Eight tracks need 1,152,000 B/s. */
@NeedsRig
@Tag("program")
@Execution(ExecutionMode.CONCURRENT)
class TrayOnOneLinkTest {

    private static final String LINK = "0000:00:14.0";

    @TempDir
    Path host;

    private final List<Sheet> all = new ArrayList<>();

    /** Runs a tray to its end; each drive's last run, in their order. */
    private List<Sheet> tray(List<Path> drives, double linkMbps) {
        RunShelf shelf = new RunShelf(host.resolve("xdg-state").resolve("tracksoak"), SystemClocks.EPOCH);
        Tray tray = new Tray(shelf, ServedBench.process(host), SystemClocks.EPOCH, RunOrders::newId);
        String id = RunOrders.newId();
        for (Path drive : drives) {
            String name = RunOrders.newId();
            tray.start(new RunOrder(
                    "tracksoak/run-order/1",
                    name,
                    id,
                    "",
                    SystemClocks.EPOCH.epochMillis() + drives.indexOf(drive),
                    List.of(
                            "qualify",
                            drive.toString(),
                            "--session=trio-8",
                            "--plan=line-check",
                            "--take=10s",
                            "--idle=0s",
                            "--file-systems=ext4",
                            "--reserve=16MiB",
                            "--length=60s",
                            "--no-roster"),
                    drive.toString(),
                    drive.toString(),
                    false,
                    "trio-8",
                    "line-check",
                    "",
                    host.resolve(name).toString(),
                    List.of(LINK),
                    linkMbps,
                    null,
                    List.of()));
        }
        assertThat(Host.await(240_000, () -> {
                    tray.lookAfter(id);
                    return tray.over(id);
                }))
                .as(shelf.all().toString())
                .isTrue();
        all.addAll(shelf.all());
        return tray.runs(id);
    }

    private static RunRecord record(Sheet sheet) {
        try {
            return RecordFile.load(Path.of(sheet.order().folder()).resolve("record.json"));
        } catch (RecordException e) {
            throw new AssertionError(sheet.toString(), e);
        }
    }

    /** When somebody was at the link, in ms. */
    private record Time(String run, PhaseKind kind, double from, double to) {
        private static Time of(RunRecord run, PhaseFacts phase) {
            double from = Instant.parse(phase.startedAt()).toEpochMilli();
            return new Time(run.id(), phase.kind(), from, from + phase.seconds() * 1000);
        }

        private boolean meets(Time other) {
            return !run.equals(other.run) && from < other.to && other.from < to;
        }

        private boolean flatOut() {
            return kind == PhaseKind.READ_BACK;
        }
    }

    @Test
    void takesGoSideBySideReadBacksOneByOneAndVerdictsAreThoseOfEachAlone() {
        try (SharedLink link = new SharedLink(3, 128)) {
            // the third loses what lies beyond its first 8 MiB; the link carries two takes and their catching up
            link.set(Faults.none().rate(12_000_000).dropFrom(link.offset(2) + (8 << 20)));
            List<Sheet> runs = tray(List.of(link.drive(2), link.drive(0), link.drive(1)), 100);
            assertThat(runs).hasSize(3);
            for (Sheet run : runs) {
                boolean bad = run.order().place().equals(link.drive(2).toString());
                // a machine that others use may be late
                assertThat(run.state().outcome())
                        .as(run.state().sentence())
                        .isIn(bad ? List.of("FAIL") : List.of("PASS", "NO VERDICT"));
            }
            List<Time> times = new ArrayList<>();
            for (Sheet sheet : all) {
                RunRecord record = record(sheet);
                record.phases().forEach(phase -> times.add(Time.of(record, phase)));
            }
            assertThat(times)
                    .as("takes side by side")
                    .anyMatch(one -> one.kind() == PhaseKind.TAKE
                            && times.stream().anyMatch(two -> two.kind() == PhaseKind.TAKE && one.meets(two)));
            for (Time one : times) {
                assertThat(times).as("beside " + one).noneMatch(two -> one.flatOut() && one.meets(two));
            }
        }
    }

    /** The system says 480 Mbit/s, and something on the way carries one take and not two: no drive is blamed for that. */
    @Test
    void aNeighbourDecidesNoVerdictWhereTheLinkIsSlowerThanItSays() {
        try (SharedLink link = new SharedLink(2, 128)) {
            // less than what two need, so that no luck of a short take lets both pass
            link.set(Faults.none().rate(2_100_000));
            List<Sheet> runs = tray(List.of(link.drive(0), link.drive(1)), 480);
            for (Sheet run : runs) {
                assertThat(run.state().outcome()).as(run.state().sentence()).isIn("PASS", "NO VERDICT");
            }
            assertThat(all)
                    .as("missed beside the other, and asked again")
                    .anyMatch(sheet -> sheet.order().words().contains("--alone")
                            && !sheet.order().again().isEmpty());
        }
    }
}
