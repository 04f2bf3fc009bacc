package tracksoak.report.roster.web;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.SessionCatalog;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterDesk;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.web.page.RosterSite;
import tracksoak.report.roster.web.server.CrewToken;
import tracksoak.report.roster.web.server.RosterServer;
import tracksoak.report.roster.web.server.RosterSettings;
import tracksoak.report.roster.web.server.ServerLog;
import tracksoak.report.roster.web.server.TokenFile;

/** A roster in a folder of the test, served on a free port of this computer; its clock stands until it is set. */
public final class Served implements AutoCloseable {

    public volatile Instant now = Shows.START.plus(Duration.ofDays(1));
    public final Roster roster;
    public final TesterKey key = TesterKey.create("Wren");
    public final RosterDesk desk;
    public final TokenFile tokens;
    public final CrewToken.Fresh token;
    public volatile RosterServer server;
    public final Queue<String> failures = new ConcurrentLinkedQueue<>();
    /** The latest of them: all those of a soak would be the very growth that it looks for. */
    final Queue<String> requests = new ArrayBlockingQueue<>(10_000);

    private final Path folder;
    private final UnaryOperator<RosterSettings> change;
    private final HttpClient client = HttpClient.newHttpClient();

    public Served(Path folder) {
        this(folder, settings -> settings);
    }

    public Served(Path folder, UnaryOperator<RosterSettings> change) {
        this(folder, RosterPlace.sqlite(folder.resolve("roster.db")), change);
    }

    /** @param folder for the tokens */
    public Served(Path folder, RosterPlace place, UnaryOperator<RosterSettings> change) {
        roster = Roster.open(place, () -> now);
        desk = roster.desk(key);
        tokens = new TokenFile(folder.resolve(TokenFile.NAME));
        token = CrewToken.make("van laptop", now.toString(), "", new SecureRandom());
        tokens.keep(token.kept());
        this.folder = folder;
        this.change = change;
        server = start(0);
    }

    private RosterServer start(int port) {
        return RosterSite.serve(
                change.apply(RosterSettings.loopback().withPort(port)),
                roster,
                SessionCatalog.shipped().all(),
                tokens,
                () -> now,
                new ServerLog() {
                    @Override
                    public void request(String line) {
                        while (!requests.offer(line)) {
                            requests.poll();
                        }
                    }

                    @Override
                    public void failure(String line) {
                        failures.add(line);
                    }
                });
    }

    /** The server ends, {@code meanwhile} happens, and it comes back at the same address. */
    public void restart(Runnable meanwhile) {
        int port = server.port();
        server.close();
        meanwhile.run();
        server = start(port);
    }

    /** Parcels of a roster elsewhere, in which {@code work} was done. */
    public List<Parcel> elsewhere(TesterKey author, Consumer<RosterDesk> work) {
        try (Roster other =
                Roster.open(RosterPlace.sqlite(folder.resolve("other-" + author.id() + ".db")), () -> now)) {
            work.accept(other.desk(author));
            return other.peer().pull(other.peer().refs("", 200));
        }
    }

    public URI base() {
        return URI.create("http://127.0.0.1:" + server.port() + "/");
    }

    HttpResponse<String> get(String path, String... headers) {
        return send(request(path, headers).GET().build());
    }

    HttpResponse<String> post(String path, byte[] body, String... headers) {
        return send(request(path, headers)
                .POST(HttpRequest.BodyPublishers.ofByteArray(body))
                .build());
    }

    HttpRequest.Builder request(String path, String... headers) {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(base() + path.substring(1)));
        return headers.length == 0 ? request : request.headers(headers);
    }

    HttpResponse<String> send(HttpRequest request) {
        try {
            return client.send(request, HttpResponse.BodyHandlers.ofString());
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    String bearer() {
        return "Bearer " + token.text();
    }

    /** Sends these very bytes and reads until the server closes. */
    String raw(String request) throws IOException {
        try (Socket socket = socket()) {
            socket.getOutputStream().write(request.getBytes(StandardCharsets.ISO_8859_1));
            socket.getOutputStream().flush();
            return new String(rest(socket), StandardCharsets.ISO_8859_1);
        }
    }

    Socket socket() throws IOException {
        Socket socket = new Socket(InetAddress.getLoopbackAddress(), server.port());
        socket.setSoTimeout(60_000);
        return socket;
    }

    /** What still comes; a connection that is reset counts as closed. */
    static byte[] rest(Socket socket) {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        try {
            socket.getInputStream().transferTo(all);
        } catch (IOException reset) {
            return all.toByteArray();
        }
        return all.toByteArray();
    }

    /** Value of a header of a raw answer, null without it. */
    static @Nullable String header(String answer, String name) {
        return answer.lines()
                .takeWhile(line -> !line.isEmpty())
                .filter(line -> line.regionMatches(true, 0, name + ":", 0, name.length() + 1))
                .map(line -> line.substring(name.length() + 1).strip())
                .findFirst()
                .orElse(null);
    }

    static List<String> lines(String text) {
        return text.lines().toList();
    }

    @Override
    public void close() {
        server.close();
        roster.close();
    }

    /** As a crew's, whose phones find it by a name, so that labels bear codes. */
    public static RosterSettings foundByPhones(RosterSettings settings) {
        return new RosterSettings(
                settings.bind(),
                settings.port(),
                null,
                null,
                false,
                true,
                settings.names(),
                "https://roster.example:8432",
                settings.limits());
    }
}
