package tracksoak.bench.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.job.OffSwitch;
import tracksoak.bench.tray.LiveRun;
import tracksoak.bench.tray.RunOrder;
import tracksoak.bench.tray.RunOrders;
import tracksoak.profiles.base.SystemClocks;

/** What the page of a tray says beside its table. */
class TrayPagesTest {

    private static final String REMARK =
            "whether your recorder reads ext4 is not known → if it does, add --file-systems ext4";

    @TempDir
    Path computer;

    private final String tray = RunOrders.newId();

    private RunOrder put(ServedBench bench, String drive, String tag) {
        RunOrder order = new RunOrders(new TestRooms(computer, List.of()), SystemClocks.EPOCH)
                .of(
                        new RunOrders.Asked(
                                TestRooms.stick("/media/" + drive, "Lantern", drive), Path.of("/media/" + drive), tag),
                        tray,
                        List.of(),
                        "trio-8",
                        "line-check",
                        List.of(REMARK));
        bench.shelf.put(order);
        return order;
    }

    private void over(RunOrder order) {
        Path run = computer.resolve("state/runs").resolve(order.id());
        LiveRun live = new LiveRun(run, new Nobody(), new OffSwitch(), SystemClocks.EPOCH, SystemClocks.NANO);
        live.failed("the drive is gone", "");
        live.ends();
    }

    /** Under the names its table has, with the field of the page for what is typed elsewhere; and no longer than it is of use. */
    @Test
    void whatIsTrueOfSeveralDrivesIsSaidOnceUntilTheyAreThrough() throws IOException {
        try (ServedBench bench = new ServedBench(computer, new TestRooms(computer, List.of()))) {
            bench.enter();
            RunOrder one = put(bench, "One", "");
            RunOrder two = put(bench, "Two", "W-2");

            String both = bench.get("/bench/tray/" + tray).body();

            assertThat(both)
                    .containsOnlyOnce("Whether your recorder reads ext4")
                    .contains("Lantern One and W-2: Whether")
                    .contains("File systems the recorder accepts");
            over(one);
            assertThat(bench.get("/bench/tray/" + tray).body()).contains(">W-2: Whether");
            over(two);
            assertThat(bench.get("/bench/tray/" + tray).body()).doesNotContain("your recorder reads ext4");
        }
    }
}
