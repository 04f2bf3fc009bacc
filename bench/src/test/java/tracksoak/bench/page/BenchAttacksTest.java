package tracksoak.bench.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.lang.reflect.Method;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.drive.folder.RunLock;
import tracksoak.bench.job.OffSwitch;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.bench.rig.NeedsCommand;
import tracksoak.bench.tray.LiveRun;
import tracksoak.bench.tray.RunOrders;
import tracksoak.bench.tray.Turn;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.PhaseKind;

/** What others try at the bench's page, row by row as docs/bench.md lists it. */
class BenchAttacksTest {

    @TempDir
    Path folder;

    private ServedBench bench;

    @BeforeEach
    void open() {
        bench = new ServedBench(
                folder,
                new TestRooms(
                        folder, List.of(TestRooms.stick("/media/barn", "Lantern", "Wagon"), TestRooms.unmounted())));
    }

    @AfterEach
    void close() {
        bench.close();
        assertThat(bench.failures).isEmpty();
    }

    private Map<String, String> form(String drive) {
        Map<String, String> form = new HashMap<>();
        form.put("secret", bench.secret());
        form.put("drive", drive);
        form.put("session", "trio-8");
        form.put("plan", "line-check");
        form.put("tag", "W-1");
        return form;
    }

    private void nothingStarted() {
        assertThat(bench.shelf.all()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"/bench", "/bench/new", "/bench/tray", "/bench/sessions", "/", "/drives.csv", "/live"})
    void anotherUserOfThisComputerSeesNothing(String page) {
        HttpResponse<String> answer = bench.get(page);
        assertThat(answer.statusCode()).isEqualTo(303);
        assertThat(answer.headers().firstValue("Location")).contains("/enter");
        assertThat(bench.get("/enter").body()).contains("tracksoak bench").doesNotContain("<form");
        assertThat(bench.get("/open?key=crew-000000000000-" + "A".repeat(43)).statusCode())
                .isIn(303, 401);
    }

    @Test
    void anotherUserOfThisComputerStartsNothing() {
        assertThat(bench.post("/bench/runs", Map.of("drive", "simulated-steady-ssd"), "Origin", bench.origin())
                        .statusCode())
                .isIn(303, 401);
        nothingStarted();
    }

    /** Browsers give a cookie to every port of a computer, and so to whatever another of its users serves there. */
    @Test
    @NeedsCommand({"setpriv", "bash"})
    void aCookieIsWorthNothingToAnotherUserOfThisComputer() throws IOException, InterruptedException {
        assumeTrue(Files.getAttribute(Path.of("/proc/self"), "unix:uid").equals(0), "needs root, to be another user");
        bench.enter();
        String secret = bench.secret();
        String body = "secret=" + secret + "&drive=simulated-steady-ssd&session=trio-8&plan=line-check&tag=";
        String head = " HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\nOrigin: " + bench.origin() + "\r\nCookie: "
                + bench.cookie() + "\r\n";
        String post = "POST /bench/runs" + head + "Content-Type: application/x-www-form-urlencoded\r\nContent-Length: "
                + body.length() + "\r\n\r\n" + body;
        assertThat(as("65534", "GET /bench" + head + "\r\n"))
                .startsWith("HTTP/1.1 403")
                .contains("another user's");
        assertThat(as("65534", post)).startsWith("HTTP/1.1 403");
        assertThat(as("65534", "GET /open?key=" + bench.key.text() + head + "\r\n"))
                .startsWith("HTTP/1.1 403")
                .doesNotContain("Set-Cookie");
        nothingStarted();
        assertThat(as("0", "GET /bench" + head + "\r\n")).startsWith("HTTP/1.1 200");
    }

    /** Requests that are never sent to their end, as many as the server lets one address have and more. */
    @Test
    @NeedsCommand({"setpriv", "bash"})
    void anotherUserOfThisComputerKeepsNoConnectionsFromTheOwner() throws IOException {
        assumeTrue(Files.getAttribute(Path.of("/proc/self"), "unix:uid").equals(0), "needs root, to be another user");
        Process flood = new ProcessBuilder(
                        "setpriv",
                        "--reuid=65534",
                        "--clear-groups",
                        "bash",
                        "-c",
                        "for i in {1..500}; do exec {fd}<>/dev/tcp/127.0.0.1/$0; printf 'GET /bench HTTP/1.1\\r\\n' >&$fd; done; echo open; read",
                        Integer.toString(URI.create(bench.origin()).getPort()))
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        try {
            assertThat(flood.getInputStream().read()).isEqualTo('o');
            bench.enter();
            for (int i = 0; i < 20; i++) {
                assertThat(bench.get("/bench").statusCode()).isEqualTo(200);
            }
        } finally {
            flood.destroyForcibly();
        }
    }

    /** Folders and files as earlier versions made them; whoever may read a file can hold a lock on it. */
    @Test
    @NeedsCommand({"setpriv", "cat"})
    void anotherUserCannotHoldUpTestsByTheirLocks() throws IOException, InterruptedException {
        assumeTrue(Files.getAttribute(Path.of("/proc/self"), "unix:uid").equals(0), "needs root, to be another user");
        Set<PosixFilePermission> open = PosixFilePermissions.fromString("rwxr-xr-x");
        Path state = Files.createDirectory(folder.resolve("old-state"));
        List<Path> folders = List.of(state.resolve("turns"), state.resolve("locks"));
        List<Path> locks = List.of(state.resolve("turns/computer"), state.resolve("locks/disk-8-16.lock"));
        Files.setPosixFilePermissions(folder, open);
        Files.setPosixFilePermissions(state, open);
        for (Path one : folders) {
            Files.setPosixFilePermissions(Files.createDirectory(one), open);
        }
        for (Path lock : locks) {
            Files.writeString(lock, "");
            Files.setPosixFilePermissions(lock, PosixFilePermissions.fromString("rw-r--r--"));
            assertThat(mayRead("65534", lock)).isTrue();
        }
        Turn.Wish wish = new Turn.Wish(state, null, true, 1, 2);
        try (Turn turn = Turn.take(wish, SystemClocks.NANO, SystemClocks.PARK, () -> false, waits -> {});
                RunLock drive = RunLock.take(state, "disk-8-16", "a run")) {
            assertThat(turn).isNotNull();
            assertThat(drive.held()).isTrue();
            for (Path lock : locks) {
                assertThat(mayRead("65534", lock)).isFalse();
                assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(lock)))
                        .isEqualTo("rw-------");
            }
            for (Path one : folders) {
                assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(one)))
                        .isEqualTo("rwx------");
            }
        }
    }

    private static boolean mayRead(String user, Path file) throws IOException, InterruptedException {
        return new ProcessBuilder("setpriv", "--reuid=" + user, "--clear-groups", "cat", file.toString())
                        .redirectErrorStream(true)
                        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                        .start()
                        .waitFor()
                == 0;
    }

    private String as(String user, String request) throws IOException, InterruptedException {
        Process process = new ProcessBuilder(
                        "setpriv",
                        "--reuid=" + user,
                        "--clear-groups",
                        "bash",
                        "-c",
                        "exec 3<>/dev/tcp/127.0.0.1/$0 && printf '%s' \"$1\" >&3 && cat <&3",
                        Integer.toString(URI.create(bench.origin()).getPort()),
                        request)
                .redirectErrorStream(true)
                .start();
        String answer = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        process.waitFor();
        return answer;
    }

    @Test
    void aPageOfAnotherSitePostsInVain() {
        bench.enter();
        Map<String, String> form = form("simulated-steady-ssd");
        assertThat(bench.post("/bench/runs", form, "Origin", "http://evil.example")
                        .statusCode())
                .isEqualTo(403);
        assertThat(bench.post("/bench/runs", form, "Origin", "null").statusCode())
                .isEqualTo(403);
        assertThat(bench.post("/bench/runs", form).statusCode()).isEqualTo(403);
        assertThat(bench.post("/bench/runs", form, "Origin", bench.origin(), "Sec-Fetch-Site", "cross-site")
                        .statusCode())
                .isEqualTo(403);
        assertThat(bench.post("/bench/sessions", form, "Origin", "http://evil.example")
                        .statusCode())
                .isEqualTo(403);
        nothingStarted();
    }

    @Test
    void aFormWithoutThePagesSecretStartsNothing() {
        bench.enter();
        for (String secret : List.of("", "x", "A".repeat(43))) {
            Map<String, String> form = form("simulated-steady-ssd");
            form.put("secret", secret);
            for (String to : List.of(
                    "/bench/runs",
                    "/bench/clear",
                    "/bench/tray",
                    "/bench/sessions",
                    "/bench/runs/" + "a".repeat(32) + "/stop")) {
                assertThat(bench.post(to, form, "Origin", bench.origin()).statusCode())
                        .isEqualTo(400);
            }
        }
        nothingStarted();
        assertThat(folder.resolve("sessions")).doesNotExist();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/",
                "/media/barn",
                "/dev/sda",
                "../../etc",
                "simulated-",
                "simulated-/etc/passwd",
                "simulated-../drive.toml",
                "simulated-steady-ssd --out /x",
                "--simulated",
                ""
            })
    void nothingButListedDrivesCanBeNamed(String drive) {
        bench.enter();
        assertThat(bench.post("/bench/runs", form(drive), "Origin", bench.origin())
                        .statusCode())
                .isEqualTo(400);
        nothingStarted();
    }

    @Test
    void aDriveThatIsRefusedCannotBeStartedByItsKey() {
        bench.enter();
        PluggedIn plugged = new PluggedIn(new TestRooms(folder, List.of(TestRooms.unmounted())), SystemClocks.NANO);
        String key = plugged.all().get(0).key();
        assertThat(bench.post("/bench/runs", form(key), "Origin", bench.origin())
                        .statusCode())
                .isEqualTo(400);
        nothingStarted();
    }

    @ParameterizedTest
    @ValueSource(strings = {"--out=/x", "a b", "<b>", "W-1\nW-2", "../W"})
    void tagsCannotBecomeOptionsOrPaths(String tag) {
        bench.enter();
        Map<String, String> form = form("simulated-steady-ssd");
        form.put("tag", tag);
        assertThat(bench.post("/bench/runs", form, "Origin", bench.origin()).statusCode())
                .isEqualTo(400);
        nothingStarted();
    }

    @ParameterizedTest
    @ValueSource(strings = {"../../x", "/etc/passwd", "a/b", "..", "", "trio-8.toml"})
    void sessionsCannotBecomePaths(String session) throws IOException {
        bench.enter();
        Map<String, String> form = form("simulated-steady-ssd");
        form.put("session", session);
        assertThat(bench.post("/bench/runs", form, "Origin", bench.origin()).statusCode())
                .isEqualTo(400);
        form.put("name", session);
        assertThat(bench.post("/bench/sessions", form, "Origin", bench.origin()).statusCode())
                .isEqualTo(422);
        nothingStarted();
        try (var files = Files.walk(folder)) {
            assertThat(files.map(Path::toString)).noneMatch(file -> file.endsWith(".toml"));
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"/bench/runs/../x", "/bench/runs/%2e%2e%2fx", "/bench/runs/AAAA", "/bench/runs/" + "a/report"})
    void addressesOfRunsCannotBecomePaths(String path) {
        bench.enter();
        assertThat(bench.get(path).statusCode()).isIn(400, 404);
    }

    @Test
    void anotherNameThatLeadsHereIsRefused() throws IOException {
        assertThat(raw("GET /bench HTTP/1.1\r\nHost: evil.example\r\nConnection: close\r\n\r\n"))
                .startsWith("HTTP/1.1 421");
    }

    @Test
    void theKeyInTheAddressReachesNoReferrerAndNoLog() {
        bench.enter();
        HttpResponse<String> opened = bench.get("/open?key=" + bench.key.text());
        assertThat(opened.headers().firstValue("Referrer-Policy")).contains("no-referrer");
        assertThat(opened.body()).doesNotContain(bench.key.text());
        assertThat(opened.headers().firstValue("Set-Cookie").orElseThrow()).contains("HttpOnly", "SameSite=Strict");
        assertThat(bench.requests)
                .isNotEmpty()
                .noneMatch(line -> line.contains(bench.key.text()) || line.contains("key="));
        // pages with forms tell their own site alone where they were
        assertThat(bench.get("/bench").headers().firstValue("Referrer-Policy")).contains("same-origin");
    }

    @Test
    void everyPageHasThePolicyOfTheRoster() {
        bench.enter();
        for (String page : List.of(
                "/bench", "/bench/new", "/bench/tray", "/bench/sessions", "/bench/sessions/trio-8", "/bench/help")) {
            assertThat(bench.get(page).headers().firstValue("Content-Security-Policy"))
                    .as(page)
                    .isEqualTo(bench.get("/").headers().firstValue("Content-Security-Policy"))
                    .hasValueSatisfying(policy ->
                            assertThat(policy).contains("script-src 'self'").doesNotContain("unsafe"));
        }
    }

    private Map<String, String> tray(List<FoundDrive> drives, String... tags) {
        Map<String, String> form = form("");
        List<PluggedIn.One> found = new PluggedIn(new TestRooms(folder, drives), SystemClocks.NANO).all();
        for (int i = 0; i < found.size(); i++) {
            form.put("drive-" + found.get(i).key(), "yes");
            form.put("tag-" + found.get(i).key(), tags[i]);
        }
        return form;
    }

    @Test
    void oneTagCannotBeGivenToTwoDrivesOfATray() {
        List<FoundDrive> drives = List.of(
                TestRooms.stick("/media/barn", "Lantern", "Wagon"), TestRooms.stick("/media/hay", "Barley", "Wagon"));
        bench.close();
        bench = new ServedBench(folder, new TestRooms(folder, drives));
        bench.enter();
        Map<String, String> form = tray(drives, "w-1", "W-1");
        form.put("secret", bench.secret());
        HttpResponse<String> answer = bench.post("/bench/tray", form, "Origin", bench.origin());
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body()).contains("The tag W-1 is given to two drives");
        nothingStarted();
    }

    /** It was listed a moment ago. */
    @Test
    void aTrayIsNotBegunWhereOneOfItsDrivesCannotBeTested() {
        bench.enter();
        Map<String, String> form = tray(List.of(TestRooms.stick("/media/barn", "Lantern", "Wagon")), "W-1");
        HttpResponse<String> answer = bench.post("/bench/tray", form, "Origin", bench.origin());
        assertThat(answer.statusCode()).isEqualTo(422);
        assertThat(answer.body()).contains("/media/barn", "There is no folder");
        nothingStarted();
    }

    @Test
    void twoHundredStreamsOfNewsLeaveThePagesUsable() throws IOException {
        bench.enter();
        List<Socket> streams = new ArrayList<>();
        try {
            for (int i = 0; i < 200; i++) {
                streams.add(stream());
            }
            assertThat(bench.get("/live").statusCode()).isEqualTo(503);
            assertThat(bench.get("/bench").statusCode()).isEqualTo(200);
        } finally {
            for (Socket stream : streams) {
                stream.close();
            }
        }
    }

    @Test
    void theTableOfAttacksNamesEachOfThem() throws IOException {
        String table = Files.readString(Path.of("../docs/bench.md"));
        for (Method method : BenchAttacksTest.class.getDeclaredMethods()) {
            boolean test =
                    method.isAnnotationPresent(Test.class) || method.isAnnotationPresent(ParameterizedTest.class);
            if (test && !method.getName().startsWith("theTable")) {
                assertThat(table).contains(method.getName());
            }
        }
    }

    /** From the run saying it to the page holding it; the best of several, for the computer has other work. */
    @Test
    void figuresReachThePageWithin300Ms() throws IOException {
        bench.enter();
        RunOrders orders = new RunOrders(new TestRooms(folder, List.of()), SystemClocks.EPOCH);
        var order = orders.simulated("steady-ssd", "", List.of(), "trio-8", "line-check", "");
        LiveRun live = new LiveRun(
                bench.shelf.put(order), new Nobody(), new OffSwitch(), SystemClocks.EPOCH, SystemClocks.NANO);
        live.works(() -> "");
        long bestNs = Long.MAX_VALUE;
        try (Socket stream = stream()) {
            BufferedReader news =
                    new BufferedReader(new InputStreamReader(stream.getInputStream(), StandardCharsets.UTF_8));
            for (int i = 1; i <= 10; i++) {
                SystemClocks.PARK.waitUntil(SystemClocks.NANO.nanoTime() + TimeUnit.MILLISECONDS.toNanos(150));
                while (news.ready()) {
                    news.readLine();
                }
                long saidNs = SystemClocks.NANO.nanoTime();
                live.progress(progress(i));
                String line = news.readLine();
                while (line != null && !line.startsWith("data:")) {
                    line = news.readLine();
                }
                assertThat(bench.get("/bench/runs/" + order.id()).body()).contains(i + " ms of a buffer of 2 s");
                bestNs = Math.min(bestNs, SystemClocks.NANO.nanoTime() - saidNs);
            }
        }
        assertThat(bestNs / 1e6).isLessThan(300);
    }

    private static Progress progress(double backlogMs) {
        return new Progress(
                PhaseKind.TAKE, 1, 3, 5, 60, 55, 8, 8, backlogMs, backlogMs, 2_000, 12, 0, 1_000_000, 1_150_000, 0);
    }

    private Socket stream() throws IOException {
        Socket socket = socket();
        socket.getOutputStream()
                .write(("GET /live HTTP/1.1\r\nHost: 127.0.0.1\r\nCookie: " + bench.cookie() + "\r\n\r\n")
                        .getBytes(StandardCharsets.US_ASCII));
        socket.getOutputStream().flush();
        // the first byte of the answer comes once it has joined
        assertThat(socket.getInputStream().read()).isEqualTo('H');
        return socket;
    }

    private Socket socket() throws IOException {
        Socket socket = new Socket(
                InetAddress.getLoopbackAddress(), URI.create(bench.origin()).getPort());
        socket.setSoTimeout(20_000);
        return socket;
    }

    private String raw(String request) throws IOException {
        try (Socket socket = socket()) {
            socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
            socket.getOutputStream().flush();
            return new String(socket.getInputStream().readAllBytes(), StandardCharsets.ISO_8859_1);
        }
    }
}
