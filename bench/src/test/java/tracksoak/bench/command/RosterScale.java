package tracksoak.bench.command;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.HdrHistogram.Histogram;
import tracksoak.bench.recorder.SystemClocks;
import tracksoak.profiles.Session;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterPlace;
import tracksoak.report.roster.exchange.Sync;
import tracksoak.report.roster.standing.Standing;

/**
 * Measures a roster of many drives, and prints what came of it: {@code RosterScale FOLDER [LAUNCHER] [DRIVES] [RECORDS]}. FOLDER keeps the roster made,
 * so that a second call need not make it again; it should be a disk, not memory. How to call it and what it showed stands in docs/roster.md.
 */
public final class RosterScale {

    private static final int READERS = 50;
    private static final int PAGE = 100;
    private static final int COLD_STARTS = 7;
    private static final long READ_NS = 15_000_000_000L;
    private static final int BULK = 10_000;

    private final Path folder;
    private final PrintStream out;

    private RosterScale(Path folder, PrintStream out) {
        this.folder = folder;
        this.out = out;
    }

    /** Runs all of it. */
    public static void main(String[] args) throws Exception {
        Path folder = Path.of(args[0]);
        int drives = args.length > 2 ? Integer.parseInt(args[2]) : 5_000;
        int records = args.length > 3 ? Integer.parseInt(args[3]) : 50_000;
        RosterScale scale = new RosterScale(folder, System.out);
        Path all = scale.made("all", drives, records);
        if (args.length > 1 && !args[1].equals("-")) {
            scale.cold(all, args[1]);
        }
        scale.postgres(scale.made("bulk", drives, Math.min(BULK, records)), all);
    }

    private Path made(String name, int drives, int records) throws IOException {
        Path file = folder.resolve(name).resolve(RosterPlace.FILE);
        if (!Files.exists(file)) {
            long from = SystemClocks.NANO.nanoTime();
            Path half = folder.resolve(name + ".half");
            new RosterLoad(half.resolve("scratch"), 20)
                    .fill(RosterPlace.sqlite(half.resolve(RosterPlace.FILE)), drives, records, out::println);
            Files.move(half, folder.resolve(name));
            say("made a roster of %,d drives and %,d records in %.1f s", drives, records, since(from));
        }
        try (Roster roster = Roster.open(RosterPlace.sqlite(file), () -> RosterLoad.NOW)) {
            say("%s: %,d events, %,d MB", name, roster.events(), Files.size(file) / 1_000_000);
        }
        return file;
    }

    /** The whole process, from the shell's point of view. */
    private void cold(Path file, String launcher) throws IOException, InterruptedException {
        List<Double> seconds = new ArrayList<>();
        for (int i = 0; i <= COLD_STARTS; i++) {
            long from = SystemClocks.NANO.nanoTime();
            Process process = new ProcessBuilder(
                            launcher, "roster", "list", "--session", "trio-8", "--roster", file.toString())
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
                "roster list --session, whole process, %d starts: median %.2f s, worst %.2f s",
                COLD_STARTS, seconds.get(COLD_STARTS / 2), seconds.get(COLD_STARTS - 1));
    }

    private void postgres(Path bulk, Path all) throws Exception {
        try (EmbeddedPostgres server = EmbeddedPostgres.builder().start()) {
            try (Connection connection = server.getPostgresDatabase().getConnection();
                    Statement statement = connection.createStatement()) {
                statement.execute("CREATE DATABASE roster");
            }
            RosterPlace place = RosterPlace.postgres(server.getJdbcUrl("postgres", "roster"), "postgres", "postgres");
            sync("bulk sync, SQLite to PostgreSQL", bulk, place);
            sync("sync of the rest", all, place);
            try (Roster roster = Roster.open(place, () -> RosterLoad.NOW)) {
                read(roster, false);
                read(roster, true);
            }
        }
    }

    private void sync(String what, Path from, RosterPlace to) {
        long before = heapMb();
        long start = SystemClocks.NANO.nanoTime();
        int[] told = {0};
        Sync.Result result;
        try (Roster source = Roster.open(RosterPlace.sqlite(from), () -> RosterLoad.NOW);
                Roster target = Roster.open(to, () -> RosterLoad.NOW)) {
            result = Sync.run(source.peer(), target.peer(), (fetched, handed) -> {
                if (handed / BULK > told[0]) {
                    told[0] = handed / BULK;
                    say("  %,d events after %.1f s, heap in use %,d MB", handed, since(start), heapMb());
                }
            });
        }
        say(
                "%s: %,d events in %.1f s; heap in use %,d MB before, %,d MB after",
                what, result.handedOver().taken(), since(start), before, heapMb());
    }

    /** Readers without a pause between two pages, each of another session, standing, text and order; one more writes a note every 2 s if asked. */
    private void read(Roster roster, boolean written) throws Exception {
        List<Session> sessions = roster.sessions();
        roster.board(BoardQuery.all(sessions.get(0)));
        ExecutorService crew = Executors.newFixedThreadPool(READERS + 1);
        long end = SystemClocks.NANO.nanoTime() + READ_NS;
        try {
            List<Future<Histogram>> readers = new ArrayList<>();
            for (int i = 0; i < READERS; i++) {
                int reader = i;
                readers.add(crew.submit(() -> reader(roster, sessions, reader, end)));
            }
            Callable<Integer> writer = () -> written ? writer(roster, end) : 0;
            int notes = crew.submit(writer).get();
            Histogram sum = new Histogram(3);
            for (Future<Histogram> reader : readers) {
                sum.add(reader.get());
            }
            say(
                    "%d readers%s: %,d pages in %d s, p50 %.1f ms, p99 %.1f ms, worst %.1f ms; heap in use %,d MB",
                    READERS,
                    written ? ", " + notes + " changes meanwhile" : "",
                    sum.getTotalCount(),
                    READ_NS / 1_000_000_000L,
                    sum.getValueAtPercentile(50) / 1e3,
                    sum.getValueAtPercentile(99) / 1e3,
                    sum.getMaxValue() / 1e3,
                    heapMb());
        } finally {
            crew.shutdownNow();
        }
    }

    private static Histogram reader(Roster roster, List<Session> sessions, int number, long end) {
        Histogram histogram = new Histogram(3);
        BoardQuery.Sort[] sorts = BoardQuery.Sort.values();
        Standing[] standings = Standing.values();
        for (int i = number; SystemClocks.NANO.nanoTime() < end; i++) {
            BoardQuery query = BoardQuery.all(sessions.get(i % sessions.size()))
                    .by(sorts[i % sorts.length], i % 2 == 0)
                    .page(PAGE * (i % 3), PAGE);
            query = i % 3 == 0 ? query.only(Set.of(standings[i % standings.length])) : query;
            query = i % 5 == 0 ? query.with("l-00" + i % 10) : query;
            long from = SystemClocks.NANO.nanoTime();
            roster.board(query);
            histogram.recordValue((SystemClocks.NANO.nanoTime() - from) / 1_000);
        }
        return histogram;
    }

    private static int writer(Roster roster, long end) throws InterruptedException {
        int notes = 0;
        var desk = roster.desk(tracksoak.report.record.TesterKey.create("Writer"));
        while (SystemClocks.NANO.nanoTime() < end) {
            desk.note("L-0000" + notes % 10, "seen at the load-out, change " + notes);
            notes++;
            java.util.concurrent.TimeUnit.SECONDS.sleep(2);
        }
        return notes;
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
