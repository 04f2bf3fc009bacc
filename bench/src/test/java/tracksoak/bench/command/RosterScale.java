package tracksoak.bench.command;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.PrintStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.sql.Connection;
import java.sql.Statement;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.HdrHistogram.Histogram;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.RemoteRoster;
import tracksoak.report.roster.exchange.RosterPeer;
import tracksoak.report.roster.exchange.Sync;
import tracksoak.report.roster.standing.Standing;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.web.page.RosterSite;
import tracksoak.report.roster.web.server.CrewToken;
import tracksoak.report.roster.web.server.Limits;
import tracksoak.report.roster.web.server.RosterServer;
import tracksoak.report.roster.web.server.RosterSettings;
import tracksoak.report.roster.web.server.ServerLog;
import tracksoak.report.roster.web.server.TokenFile;

/**
 * Measures a roster of many drives, and prints what came of it: {@code RosterScale FOLDER [LAUNCHER|-] [DRIVES] [RECORDS]}. FOLDER keeps the roster
 * made, so that a second call need not make it again; it should be a disk, not memory. How to call it and what it showed stands in docs/roster.md.
 */
public final class RosterScale {

    private static final int PAGE = 50;
    private static final List<BoardQuery.Sort> SORTS = List.of(BoardQuery.Sort.values());
    private static final List<Standing> STANDINGS = List.of(Standing.values());
    private static final int COLD_STARTS = 9;
    private static final int BULK = 10_000;
    private static final Duration THINKING = Duration.ofSeconds(2);
    private static final int NEWS_PER_S = 5;

    private final Path folder;
    private final PrintStream out;
    private final int drives;
    private final Duration length;
    private final List<Session> sessions = SessionCatalog.shipped().all();
    private List<RunRecord> templates = List.of();

    /** @param length how long each way of reading is measured; the same time goes before it and is not counted */
    RosterScale(Path folder, PrintStream out, int drives, Duration length) {
        this.folder = folder;
        this.out = out;
        this.drives = drives;
        this.length = length;
    }

    /** Runs all of it. */
    public static void main(String[] args) throws Exception {
        int drives = args.length > 2 ? Integer.parseInt(args[2]) : 5_000;
        int records = args.length > 3 ? Integer.parseInt(args[3]) : 50_000;
        RosterScale scale = new RosterScale(Path.of(args[0]), System.out, drives, Duration.ofSeconds(15));
        Path all = scale.made(records);
        if (args.length > 1 && !args[1].equals("-")) {
            scale.cold(all, args[1], "--session", "trio-8");
            scale.cold(all, args[1]);
        }
        scale.postgres(all);
    }

    /** Makes the roster where it is not there yet. */
    Path made(int records) throws IOException {
        Path file = folder.resolve("all").resolve(RosterPlace.FILE);
        if (!Files.exists(file)) {
            long from = SystemClocks.NANO.nanoTime();
            Path half = folder.resolve("all.half");
            new RosterLoad(templates(), 20)
                    .fill(RosterPlace.sqlite(half.resolve(RosterPlace.FILE)), drives, records, out::println);
            Files.move(half, folder.resolve("all"));
            say("made a roster of %,d drives and %,d records in %.1f s", drives, records, since(from));
        }
        try (Roster roster = Roster.open(RosterPlace.sqlite(file), () -> RosterLoad.NOW)) {
            say("%,d events, %,d MB", roster.events(), Files.size(file) / 1_000_000);
        }
        return file;
    }

    private List<RunRecord> templates() throws IOException {
        if (templates.isEmpty()) {
            templates = RosterLoad.templates(Files.createTempDirectory(Files.createDirectories(folder), "demo"), 20);
        }
        return templates;
    }

    /** The whole process, from the shell's point of view. */
    private void cold(Path file, String launcher, String... asked) throws IOException, InterruptedException {
        List<Double> seconds = new ArrayList<>();
        for (int i = 0; i <= COLD_STARTS; i++) {
            List<String> words = new ArrayList<>(List.of(launcher, "roster", "list", "--roster", file.toString()));
            words.addAll(List.of(asked));
            long from = SystemClocks.NANO.nanoTime();
            Process process = new ProcessBuilder(words)
                    .redirectOutput(folder.resolve("list.txt").toFile())
                    .redirectError(ProcessBuilder.Redirect.INHERIT)
                    .start();
            int code = process.waitFor();
            if (code != 0) {
                throw new IOException("the list ended with " + code);
            }
            if (i > 0) { // the first may build, and makes the class archive
                seconds.add(since(from));
            }
        }
        seconds.sort(null);
        say(
                "roster list %s, whole process, %d starts: median %.2f s, worst %.2f s",
                String.join(" ", asked), COLD_STARTS, seconds.get(COLD_STARTS / 2), seconds.get(COLD_STARTS - 1));
    }

    /** Fills a served PostgreSQL roster by a sync, then reads it. */
    void postgres(Path all) throws Exception {
        try (EmbeddedPostgres database = EmbeddedPostgres.builder().start()) {
            try (Connection connection = database.getPostgresDatabase().getConnection();
                    Statement statement = connection.createStatement()) {
                statement.execute("CREATE DATABASE roster");
            }
            RosterPlace place = RosterPlace.postgres(database.getJdbcUrl("postgres", "roster"), "postgres", "postgres");
            TokenFile tokens = new TokenFile(folder.resolve(TokenFile.NAME));
            CrewToken.Fresh token = CrewToken.make("laptop", RosterLoad.NOW.toString(), "", new SecureRandom());
            tokens.keep(token.kept());
            try (Roster roster = Roster.open(place, () -> RosterLoad.NOW);
                    RosterServer server = served(roster, tokens)) {
                URI base = URI.create(server.address());
                RosterPeer there = new RemoteRoster(base, token.text(), null);
                sync(all, there);
                RosterLoad load = new RosterLoad(templates(), 21);
                there.push(load.keys());
                Iterator<Parcel> news = load.news(drives, newsNeeded()).iterator();
                Runnable arrival = () -> there.push(List.of(news.next()));
                read("query", number -> roster.board(query(number)), Duration.ZERO, null);
                read("query", number -> roster.board(query(number)), Duration.ZERO, arrival);
                HttpClient client = HttpClient.newBuilder()
                        .version(HttpClient.Version.HTTP_1_1)
                        .build();
                read("whole request", number -> page(client, base, number), THINKING, null);
                read("whole request", number -> page(client, base, number), THINKING, arrival);
            }
        }
    }

    private int newsNeeded() {
        return (int) (2 * 2 * (length.toSeconds() + 1) * NEWS_PER_S);
    }

    private RosterServer served(Roster roster, TokenFile tokens) {
        Limits usual = Limits.usual();
        // all readers here have one address
        Limits limits = new Limits(
                usual.connections(),
                usual.headBytes(),
                usual.bodyBytes(),
                usual.bodiesAtOnce(),
                usual.headS(),
                usual.bodyS(),
                usual.answerS(),
                100_000,
                100_000,
                usual.wrongTokensAtOnce(),
                usual.wrongTokenEveryS(),
                usual.watchers());
        RosterSettings settings = RosterSettings.loopback().withPort(0).withLimits(limits);
        return RosterSite.serve(settings, roster, sessions, tokens, () -> RosterLoad.NOW, new ServerLog() {
            @Override
            public void request(String line) {}

            @Override
            public void failure(String line) {
                out.println(line);
            }
        });
    }

    private void sync(Path from, RosterPeer there) {
        long before = heapMb();
        long start = SystemClocks.NANO.nanoTime();
        long[] last = {0, start};
        try (Roster source = Roster.open(RosterPlace.sqlite(from), () -> RosterLoad.NOW)) {
            Sync.Result result = Sync.run(source.peer(), there, (fetched, handed) -> {
                if (handed / BULK > last[0] / BULK) {
                    say("  %,d more events in %.1f s, heap in use %,d MB", handed - last[0], since(last[1]), heapMb());
                    last[0] = handed;
                    last[1] = SystemClocks.NANO.nanoTime();
                }
            });
            say(
                    "sync over HTTP, SQLite to PostgreSQL: %,d events in %.1f s; heap in use %,d MB before, %,d MB after",
                    result.handedOver().taken(), since(start), before, heapMb());
        }
    }

    private void read(String what, RosterReaders.Page page, Duration pause, @Nullable Runnable arrival)
            throws Exception {
        RosterReaders readers = new RosterReaders(page, pause);
        Runnable meanwhile = arrival == null ? () -> {} : arrival;
        readers.read(length, meanwhile);
        long before = heapMb();
        Histogram times = readers.read(length, meanwhile);
        say(
                "%s, %d readers, %s%s: %,d in %d s, p50 %.1f ms, p99 %.1f ms, worst %.1f ms; heap in use %,d MB, then %,d MB",
                what,
                RosterReaders.READERS,
                pause.isZero() ? "no pause" : "each every " + pause.toSeconds() + " s",
                arrival == null ? "" : ", " + NEWS_PER_S + " records arrive per second",
                times.getTotalCount(),
                length.toSeconds(),
                times.getValueAtPercentile(50) / 1e3,
                times.getValueAtPercentile(99) / 1e3,
                times.getMaxValue() / 1e3,
                before,
                heapMb());
    }

    /** Each of another session, standing, text and order. */
    private BoardQuery query(int number) {
        BoardQuery query = BoardQuery.all(sessions.get(number % sessions.size()))
                .by(SORTS.get(number % SORTS.size()), number % 2 == 0)
                .page(PAGE * (number % 3), PAGE);
        query = number % 3 == 0 ? query.only(Set.of(standing(number))) : query;
        return number % 5 == 0 ? query.with("l-00" + number % 10) : query;
    }

    private void page(HttpClient client, URI base, int number) throws IOException, InterruptedException {
        List<String> orders = List.of("tag", "standing", "until", "run-down", "model");
        String asked = "/?session=" + sessions.get(number % sessions.size()).name()
                + "&sort=" + orders.get(number % orders.size())
                + "&from=" + PAGE * (number % 3)
                + (number % 3 == 0 ? "&standing=" + standing(number).word() : "")
                + (number % 5 == 0 ? "&q=l-00" + number % 10 : "");
        HttpResponse<byte[]> answer = client.send(
                HttpRequest.newBuilder(base.resolve(asked))
                        .header("Accept", "text/html")
                        .header("Accept-Encoding", "gzip")
                        .build(),
                HttpResponse.BodyHandlers.ofByteArray());
        if (answer.statusCode() != 200) {
            throw new IOException(asked + ": " + answer.statusCode());
        }
    }

    private static Standing standing(int number) {
        return STANDINGS.get(number % STANDINGS.size());
    }

    private void say(String format, Object... values) {
        out.println(String.format(Locale.ROOT, format, values));
        out.flush();
    }

    private static double since(long from) {
        return (SystemClocks.NANO.nanoTime() - from) / 1e9;
    }

    private static long heapMb() {
        System.gc();
        Runtime runtime = Runtime.getRuntime();
        return (runtime.totalMemory() - runtime.freeMemory()) >> 20;
    }
}
