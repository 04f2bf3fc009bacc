package tracksoak.bench.page;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RosterAccess;
import tracksoak.bench.tray.RunOrders;
import tracksoak.bench.tray.RunProcess;
import tracksoak.bench.tray.RunShelf;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.page.bench.HelpView;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.web.page.RosterSite;
import tracksoak.report.roster.web.server.CrewToken;
import tracksoak.report.roster.web.server.RosterServer;
import tracksoak.report.roster.web.server.RosterSettings;
import tracksoak.report.roster.web.server.ServerLog;
import tracksoak.report.roster.web.server.TokenFile;

/** The bench's page on a free port, with folders of the test's; runs are real processes that keep to the same folders. */
public final class ServedBench implements AutoCloseable {

    private static final Pattern SECRET = Pattern.compile("name=\"secret\" value=\"([A-Za-z0-9_-]{43})\"");

    public final Roster roster;
    public final RunShelf shelf;
    public final CrewToken.Fresh key;
    public final Queue<String> failures = new ConcurrentLinkedQueue<>();
    final Queue<String> requests = new ConcurrentLinkedQueue<>();
    final BenchSite site;
    private final RosterServer server;
    private final HttpClient client = HttpClient.newHttpClient();
    private String cookie = "";

    public ServedBench(Path folder, Rooms rooms) {
        Path file = folder.resolve("roster.db");
        roster = Roster.open(RosterPlace.sqlite(file), RosterAccess.clock());
        shelf = new RunShelf(rooms.stateFolder(), SystemClocks.EPOCH);
        TokenFile tokens = new TokenFile(folder.resolve("bench-tokens.json"));
        key = CrewToken.make("the page", "2026-01-01T00:00:00Z", "", new SecureRandom());
        tokens.keepOnly(key.kept());
        site = new BenchSite(
                rooms,
                roster,
                shelf,
                process(folder),
                List.of("--roster=" + file),
                new SecureRandom(),
                SystemClocks.EPOCH,
                SystemClocks.NANO,
                RosterAccess.clock(),
                RunOrders::newId,
                () -> List.of(new HelpView.Command("tracksoak drill PATH", "Pull a drive while it records.")));
        server = RosterSite.serve(
                RosterSettings.loopback().withPort(0).withOpenReading(false),
                roster,
                SessionCatalog.shipped().all(),
                tokens,
                RosterAccess.clock(),
                new ServerLog() {
                    @Override
                    public void request(String line) {
                        requests.add(line);
                    }

                    @Override
                    public void failure(String line) {
                        failures.add(line);
                    }
                },
                site);
    }

    /** Starts runs whose folders on this computer are the test's. */
    public static RunProcess process(Path folder) {
        return new RunProcess(Map.of(
                "HOME", folder.toString(),
                "XDG_CONFIG_HOME", folder.resolve("config").toString(),
                "XDG_DATA_HOME", folder.resolve("data").toString(),
                "XDG_CACHE_HOME", folder.resolve("cache").toString(),
                "XDG_STATE_HOME", folder.resolve("xdg-state").toString()));
    }

    /** The address that lets in. */
    public String open() {
        return server.address() + "open?key=" + key.text();
    }

    public String address(String path) {
        return server.address() + path.substring(1);
    }

    /** Its own origin, as browsers send it. */
    String origin() {
        String address = server.address();
        return address.substring(0, address.length() - 1);
    }

    /** Comes in, as a browser does. */
    void enter() {
        HttpResponse<String> opened =
                send(HttpRequest.newBuilder(URI.create(open())).GET().build());
        cookie = opened.headers().firstValue("Set-Cookie").orElseThrow().replaceFirst(";.*", "");
    }

    String cookie() {
        return cookie;
    }

    HttpResponse<String> get(String path, String... headers) {
        return send(request(path, headers).GET().build());
    }

    HttpResponse<String> post(String path, Map<String, String> form, String... headers) {
        List<String> pairs = new ArrayList<>();
        form.forEach((name, value) ->
                pairs.add(name + "=" + java.net.URLEncoder.encode(value, java.nio.charset.StandardCharsets.UTF_8)));
        return send(request(path, headers)
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString(String.join("&", pairs)))
                .build());
    }

    private HttpRequest.Builder request(String path, String... headers) {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(address(path)))
                .timeout(java.time.Duration.ofSeconds(30))
                .header("Accept", "text/html");
        if (!cookie.isEmpty()) {
            request.header("Cookie", cookie);
        }
        return headers.length == 0 ? request : request.headers(headers);
    }

    HttpResponse<String> send(HttpRequest request) {
        try {
            return client.send(request, HttpResponse.BodyHandlers.ofString());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    /** What the bench's own pages know. */
    String secret() {
        Matcher found = SECRET.matcher(get("/bench/tray").body());
        if (!found.find()) {
            throw new AssertionError("no secret on the page");
        }
        return found.group(1);
    }

    @Override
    public void close() {
        server.close();
        roster.close();
    }
}
