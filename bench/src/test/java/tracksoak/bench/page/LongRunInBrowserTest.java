package tracksoak.bench.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonElement;
import com.microsoft.playwright.CDPSession;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Route;
import com.microsoft.playwright.options.ColorScheme;
import java.lang.management.ManagementFactory;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Isolated;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.job.OffSwitch;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.bench.tray.LiveRun;
import tracksoak.bench.tray.RunOrder;
import tracksoak.bench.tray.RunOrders;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.page.NeedsBrowser;
import tracksoak.report.page.Windows;
import tracksoak.report.record.facts.PhaseKind;

/**
 * A page open through a run of 12 h, which tells of itself five times a second: by its own clock, which runs as fast as it can. What
 * each further update leaves behind is measured between an early and a late moment, and reckoned up to all of them.
 */
@NeedsBrowser
@Isolated("measures memory")
class LongRunInBrowserTest {

    private static final long UPDATES = 12 * 3600 * 5;

    /** The chart is full, every class is loaded, every cache warm. */
    private static final int EARLY = 300;

    private static final int STRETCHES = 5;

    private static final double MEGABYTE = 1e6;

    @TempDir
    Path folder;

    private final Windows windows;
    private final VirtualClock clock = new VirtualClock(0);
    private ServedBench bench;
    private RunOrder order;
    private LiveRun live;
    private int told;

    LongRunInBrowserTest(Windows windows) {
        this.windows = windows;
    }

    @BeforeEach
    void begin() {
        bench = new ServedBench(folder, new TestRooms(folder, List.of()));
        order = new RunOrders(new TestRooms(folder, List.of()), SystemClocks.EPOCH)
                .simulated("long", "", List.of(), "trio-8", "line-check", "");
        live = new LiveRun(bench.shelf.put(order), new Nobody(), new OffSwitch(), SystemClocks.EPOCH, clock);
        live.works(() -> "");
    }

    @AfterEach
    void end() {
        live.ends();
        windows.close();
        bench.close();
        assertThat(bench.failures).isEmpty();
    }

    /** A fifth of a second of the run. */
    private void tell() {
        told++;
        clock.waitUntil(clock.nanoTime() + TimeUnit.MILLISECONDS.toNanos(200));
        double ms = told % 900 + 1;
        live.progress(new Progress(
                PhaseKind.TAKE, 1, 3, told / 5.0, 60, 55, 8, 8, ms, ms, 2_000, 12, 0, 230_400L * told, 1_152_000, 0));
    }

    @Test
    void aQuarterOfAnHourOfNewsLeavesNothingInTheServer() {
        server((int) (UPDATES / 48));
    }

    @Test
    @Tag("nightly")
    void twelveHoursOfNewsLeaveNothingInTheServer() {
        server((int) UPDATES);
    }

    private void server(int updates) {
        bench.enter();
        int stretch = (updates - 10 * EARLY) / STRETCHES;
        double before = 0;
        List<Double> grown = new ArrayList<>();
        for (int i = 1; i <= updates; i++) {
            tell();
            if (i % 30 == 0) {
                HttpResponse<String> page = bench.get("/bench/runs/" + order.id());
                assertThat(page.statusCode()).isEqualTo(200);
                // kept by the test, not by the server
                bench.requests.clear();
            }
            if (i >= 10 * EARLY && (i - 10 * EARLY) % stretch == 0) {
                double used = usedBytes();
                grown.add(used - before);
                before = used;
            }
        }
        grown.remove(0);
        System.out.println("bytes the server grew by in each " + stretch + " updates: " + grown);
        // what other tests left goes, and comes, once; what each update leaves shows in every stretch
        grown.sort(null);
        assertThat(grown).hasSize(STRETCHES);
        assertThat(grown.get(STRETCHES / 2) * STRETCHES).isLessThan(MEGABYTE);
    }

    private static double usedBytes() {
        for (int i = 0; i < 3; i++) {
            System.gc();
        }
        return ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed();
    }

    @Test
    void theBrowserKeepsNothingOfWhatItShowed() {
        browser(900);
    }

    @Test
    @Tag("nightly")
    void theBrowserKeepsNothingOfWhatItShowedInHours() {
        browser(6_000);
    }

    /** Every time the page asks for news there is some at once, and it is asked again at once. */
    private void browser(int visits) {
        Page page = windows.blank(Windows.look(ColorScheme.LIGHT, 1280));
        // a machine that others use may take its time
        page.setDefaultTimeout(1_200_000);
        page.route("**/live", route -> {
            tell();
            route.fulfill(new Route.FulfillOptions()
                    .setContentType("text/event-stream")
                    .setBody("retry: 1\nevent: changed\ndata: " + told + "\n\n"));
        });
        page.navigate(bench.open());
        page.waitForURL(bench.address("/bench"));
        page.navigate(bench.address("/bench/runs/" + order.id()));
        CDPSession tools = page.context().newCDPSession(page);
        tools.send("Performance.enable");
        page.waitForCondition(() -> told >= EARLY);
        // it does show what it is told; what looks there stays in the page from now on
        page.getByText(" of a buffer of 2 s").first().waitFor();
        double earlyBytes = heap(tools, "JSHeapUsedSize");
        double earlyNodes = metric(tools, "Nodes");
        int from = told;
        page.waitForCondition(() -> told >= visits);
        page.unroute("**/live");
        double grown = heap(tools, "JSHeapUsedSize") - earlyBytes;
        double nodes = metric(tools, "Nodes") - earlyNodes;
        double inAll = grown / (told - from) * UPDATES;
        System.out.println("bytes the page grew by from " + from + " to " + told + " updates: " + grown + ", nodes "
                + nodes + "; over 12 h " + inAll);
        // each update brings some 300; a few pages may be on their way
        assertThat(nodes).isLessThan(1_500);
        assertThat(inAll).isLessThan(30 * MEGABYTE);
    }

    private static double heap(CDPSession tools, String name) {
        for (int i = 0; i < 3; i++) {
            tools.send("HeapProfiler.collectGarbage");
        }
        return metric(tools, name);
    }

    private static double metric(CDPSession tools, String name) {
        for (JsonElement metric : tools.send("Performance.getMetrics").getAsJsonArray("metrics")) {
            if (metric.getAsJsonObject().get("name").getAsString().equals(name)) {
                return metric.getAsJsonObject().get("value").getAsDouble();
            }
        }
        throw new AssertionError("no metric " + name);
    }
}
