package tracksoak.report.roster.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.HdrHistogram.Histogram;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestReporter;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Isolated;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Seeded;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.exchange.RemoteRoster;
import tracksoak.report.roster.exchange.RosterPeer;
import tracksoak.report.roster.exchange.Sync;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.web.server.CrewToken;
import tracksoak.report.roster.web.server.TokenFile;

/**
 * A served roster in a process of its own, for a long time: a crew reads, laptops write and sync, one of them is cut off in the middle, one address
 * misbehaves, and in the first fifth of the time the server is killed again and again. Nothing acknowledged is lost, and neither its memory nor
 * its open files grow. At night, 30 min ({@code -Dtracksoak.soakMinutes}).
 */
@Isolated("measures the memory of a process and how long 200 clients wait")
class ServedSoakTest {

    private static final List<Misbehaviour> WAYS = List.of(Misbehaviour.values());
    private static final int DRIVES = 240;
    private static final int LAPTOPS = 3;
    private static final long SEED = 20260301;
    private static final long MOST_GROWTH_KB = 64 << 10;
    private static final int MORE_FILES = 8;
    private static final int PARTS = 4;
    private static final int LOOKS = 100;

    /** Sockets of a server that waits for its first client. */
    private static final int AT_REST = 2;

    private static final Pattern HEAP_USED = Pattern.compile(" used (\\d+)K");

    @TempDir
    Path folder;

    private final CrewToken.Fresh token = CrewToken.make("crew", Shows.START.toString(), "", new SecureRandom());
    private final Random random = Seeded.random(SEED);
    private final Histogram readsUs = new Histogram(3);
    private final Histogram syncsUs = new Histogram(3);
    private final Map<Integer, Integer> answers = new TreeMap<>();
    private int rounds;
    private int kills;
    private int cuts;

    /** One life of the server. */
    private final class Life implements AutoCloseable {

        private final Process process;
        private final BufferedReader out;
        private final URI base;

        Life() throws IOException {
            // as the launcher starts it
            process = new ProcessBuilder(
                            Path.of(System.getProperty("java.home"), "bin", "java")
                                    .toString(),
                            "-XX:+UseSerialGC",
                            "-XX:TieredStopAtLevel=1",
                            "-Xmx320m",
                            "-Xmn128m",
                            // no log of a library's own: the program ships without one
                            "-Dslf4j.internal.verbosity=ERROR",
                            "-cp",
                            System.getProperty("java.class.path"),
                            KilledServer.class.getName(),
                            folder.resolve("server").toString())
                    .redirectError(ProcessBuilder.Redirect.appendTo(
                            folder.resolve("log").toFile()))
                    .start();
            out = new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
            base = URI.create(String.valueOf(out.readLine()));
        }

        RosterPeer peer() {
            return new RemoteRoster(base, token.text(), null);
        }

        /** In use after a collection, in kB. */
        long heapKb() throws IOException, InterruptedException {
            jcmd("GC.run");
            Matcher used = HEAP_USED.matcher(jcmd("GC.heap_info"));
            long kb = 0;
            for (int space = 0; space < 2 && used.find(); space++) { // new and old; Metaspace comes after
                kb += Long.parseLong(used.group(1));
            }
            return kb;
        }

        private String jcmd(String what) throws IOException, InterruptedException {
            Process jcmd = new ProcessBuilder(
                            Path.of(System.getProperty("java.home"), "bin", "jcmd")
                                    .toString(),
                            Long.toString(process.pid()),
                            what)
                    .redirectErrorStream(true)
                    .start();
            String said = new String(jcmd.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(jcmd.waitFor()).as(said).isZero();
            return said;
        }

        long residentKb() throws IOException {
            try (Stream<String> lines = Files.lines(proc("status"))) {
                return lines.filter(line -> line.startsWith("VmRSS:"))
                        .mapToLong(line -> Long.parseLong(line.replaceAll("\\D", "")))
                        .findFirst()
                        .orElse(0);
            }
        }

        /** What it has open, by kind: sockets, the roster's own files, jars and the like. */
        Map<String, Integer> files() throws IOException {
            Map<String, Integer> kinds = new TreeMap<>();
            try (Stream<Path> open = Files.list(proc("fd"))) {
                for (Path one : open.toList()) {
                    kinds.merge(kind(one), 1, Integer::sum);
                }
            }
            return kinds;
        }

        private static String kind(Path descriptor) {
            try {
                String target = Files.readSymbolicLink(descriptor).toString();
                return target.startsWith("/")
                        ? target.replaceFirst(".*[./-](?=[a-z]+$)", "")
                        : target.replaceFirst(":.*", "");
            } catch (IOException closedMeanwhile) {
                return "closed";
            }
        }

        private Path proc(String name) {
            return Path.of("/proc", Long.toString(process.pid()), name);
        }

        void kill() {
            process.destroyForcibly();
        }

        @Override
        public void close() throws IOException {
            kill();
            try {
                assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
            out.close();
        }
    }

    /** A laptop with a roster of its own. */
    private final class Laptop implements AutoCloseable {

        private final TesterKey key;
        private final Roster roster;
        private int acts;

        Laptop(int number) {
            key = TesterKey.create("Tester " + number);
            roster = Roster.open(
                    RosterPlace.sqlite(folder.resolve("laptop-" + number + ".db")),
                    () -> Shows.START.plusSeconds(acts));
        }

        void act() {
            acts++;
            int drive = random.nextInt(DRIVES);
            if (acts % 4 == 0) {
                roster.desk(key)
                        .enter(
                                Shows.pass("B4RN-%04d".formatted(drive), Shows.START.minusSeconds(acts))
                                        .signed(key),
                                null);
            } else {
                roster.desk(key).note("S-%03d".formatted(drive), "round " + rounds);
            }
        }

        void sync(RosterPeer there) {
            long from = SystemClocks.NANO.nanoTime();
            assertThat(Sync.run(roster.peer(), there, (fetched, handed) -> {}).same())
                    .isTrue();
            syncsUs.recordValue((SystemClocks.NANO.nanoTime() - from) / 1_000);
        }

        @Override
        public void close() {
            roster.close();
        }
    }

    /** The server through a network that breaks: after so many answers nothing comes any more. */
    private static RosterPeer cut(RosterPeer real, int after, Runnable then) {
        int[] left = {after};
        return new RosterPeer() {
            private void step() {
                if (left[0]-- == 0) {
                    then.run();
                    throw new Problem(Problem.Kind.UNREACHABLE, "sync", "", "the line is cut", "again");
                }
            }

            @Override
            public List<String> refs(String after, int limit) {
                step();
                return real.refs(after, limit);
            }

            @Override
            public List<Parcel> pull(List<String> refs) {
                step();
                return real.pull(refs.subList(0, Math.min(3, refs.size())));
            }

            @Override
            public Receipt push(List<Parcel> parcels) {
                Receipt receipt = Receipt.NONE;
                for (Parcel parcel : parcels) {
                    step();
                    receipt = receipt.and(real.push(List.of(parcel)));
                }
                return receipt;
            }
        };
    }

    @Test
    @Tag("nightly")
    @Timeout(3_600)
    void itsMemoryAndFilesStayFlatAndNothingIsLostInHalfAnHour(TestReporter reporter) throws Exception {
        soak(Duration.ofMinutes(Integer.getInteger("tracksoak.soakMinutes", 30)), reporter);
    }

    private void soak(Duration length, TestReporter reporter) throws Exception {
        new TokenFile(Files.createDirectory(folder.resolve("server")).resolve(TokenFile.NAME)).keep(token.kept());
        List<Laptop> laptops = new ArrayList<>();
        try {
            for (int i = 0; i < LAPTOPS; i++) {
                laptops.add(new Laptop(i));
            }
            Laptop first = laptops.get(0);
            for (int i = 0; i < DRIVES; i++) {
                first.roster
                        .desk(first.key)
                        .enter(
                                Shows.pass("B4RN-%04d".formatted(i), Shows.START.minusSeconds(i))
                                        .signed(first.key),
                                "S-%03d".formatted(i));
            }
            long startNs = SystemClocks.NANO.nanoTime();
            long mildNs = startNs + length.toNanos() / 5;
            do {
                try (Life life = new Life()) {
                    laptops.forEach(laptop -> laptop.sync(life.peer()));
                    use(life, laptops, SystemClocks.NANO.nanoTime() + Math.min(60_000_000_000L, length.toNanos() / 10));
                    first.act();
                    cutOff(first, cut(life.peer(), 1 + random.nextInt(4), life::kill));
                    kills++;
                }
            } while (SystemClocks.NANO.nanoTime() < mildNs);
            try (Life life = new Life()) {
                laptops.forEach(laptop -> laptop.sync(life.peer()));
                long untilNs = startNs + length.toNanos();
                int before = rounds;
                while (rounds < before + WAYS.size()) {
                    use(life, laptops, 0);
                }
                long sinceNs = SystemClocks.NANO.nanoTime();
                List<Sample> samples = new ArrayList<>(List.of(sample(life)));
                for (int part = 1; part <= PARTS; part++) {
                    use(life, laptops, sinceNs + (untilNs - sinceNs) * part / PARTS);
                    samples.add(sample(life));
                }
                laptops.forEach(laptop -> laptop.sync(life.peer()));
                laptops.forEach(laptop -> laptop.sync(life.peer()));
                say(reporter, "%d rounds, %d kills, %d syncs cut off", rounds, kills, cuts);
                say(reporter, "answers to whoever misbehaved: %s", answers);
                for (Sample sample : samples) {
                    say(
                            reporter,
                            "heap after a collection %,d kB, resident %,d kB, open files %s",
                            sample.heapKb,
                            sample.residentKb,
                            sample.files);
                }
                say(reporter, "reads: %s", figures(readsUs));
                say(reporter, "syncs: %s", figures(syncsUs));
                Sample begun = samples.get(0);
                Sample last = samples.get(PARTS);
                assertThat(last.heapKb - begun.heapKb)
                        .as("growth of the heap in kB")
                        .isLessThan(MOST_GROWTH_KB);
                assertThat(count(last.files))
                        .as("open files: %s, then %s", begun.files, last.files)
                        .isLessThanOrEqualTo(count(begun.files) + MORE_FILES);
                assertThat(answers).doesNotContainKey(500);
                Set<String> all = names(first.roster.peer());
                assertThat(all).hasSizeGreaterThan(DRIVES);
                assertThat(names(life.peer())).isEqualTo(all);
                laptops.forEach(
                        laptop -> assertThat(names(laptop.roster.peer())).isEqualTo(all));
            }
            assertThat(folder.resolve("log")).content().isEmpty();
        } finally {
            laptops.forEach(Laptop::close);
        }
    }

    private void use(Life life, List<Laptop> laptops, long untilNs) throws Exception {
        Crew crew = new Crew(life.base.getPort(), "Bearer " + token.text(), SEED + rounds);
        do {
            Misbehaviour how = WAYS.get(rounds % WAYS.size());
            try (Misbehaviour.Neighbour neighbour =
                    how.begin("127.0.9.9", life.base.getPort(), "Bearer " + token.text())) {
                Laptop laptop = laptops.get(rounds % laptops.size());
                laptop.act();
                if (rounds % 3 == 0) {
                    cutOff(laptop, cut(life.peer(), 1 + random.nextInt(4), () -> {}));
                    cuts++;
                }
                laptop.sync(life.peer());
                Crew.Seen seen = crew.read(Duration.ofMillis(500), rounds % 2 == 0);
                assertThat(seen.failures()).as(how + " in round " + rounds).isEmpty();
                seen.waitsMs().forEach(ms -> readsUs.recordValue(Math.round(ms * 1_000)));
                neighbour.answers().forEach(status -> answers.merge(status, 1, Integer::sum));
            }
            rounds++;
        } while (SystemClocks.NANO.nanoTime() < untilNs);
    }

    private static void cutOff(Laptop laptop, RosterPeer there) {
        try {
            Sync.run(laptop.roster.peer(), there, (fetched, handed) -> {});
        } catch (Problem cut) {
            assertThat(cut.kind()).isEqualTo(Problem.Kind.UNREACHABLE);
        }
    }

    /** How the server is while nobody asks it for anything. */
    private record Sample(long heapKb, long residentKb, Map<String, Integer> files) {}

    /** Once nobody is connected any more: the laptops' own connections stay until the server's deadline for the next request, 15 s. */
    private static Sample sample(Life life) throws IOException, InterruptedException {
        Map<String, Integer> files = life.files();
        for (int look = 0; look < LOOKS && files.getOrDefault("socket", 0) > AT_REST; look++) {
            SystemClocks.PARK.waitUntil(
                    SystemClocks.NANO.nanoTime() + Duration.ofMillis(300).toNanos());
            files = life.files();
        }
        return new Sample(life.heapKb(), life.residentKb(), files);
    }

    private static int count(Map<String, Integer> files) {
        return files.values().stream().mapToInt(Integer::intValue).sum();
    }

    private static Set<String> names(RosterPeer peer) {
        Set<String> all = new HashSet<>();
        String last = "";
        for (List<String> page = peer.refs(last, 500); !page.isEmpty(); page = peer.refs(last, 500)) {
            all.addAll(page);
            last = page.get(page.size() - 1);
        }
        return all;
    }

    private static String figures(Histogram us) {
        return String.format(
                Locale.ROOT,
                "%,d, half within %.1f ms, 99 %% within %.1f ms, 99.9 %% within %.1f ms, worst %.1f ms",
                us.getTotalCount(),
                us.getValueAtPercentile(50) / 1e3,
                us.getValueAtPercentile(99) / 1e3,
                us.getValueAtPercentile(99.9) / 1e3,
                us.getMaxValue() / 1e3);
    }

    private static void say(TestReporter reporter, String format, Object... values) {
        reporter.publishEntry("soak", String.format(Locale.ROOT, format, values));
    }
}
