package tracksoak.report.roster.web;

import java.io.IOException;
import java.net.Socket;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import tracksoak.profiles.base.Seeded;
import tracksoak.profiles.base.SystemClocks;

/** 200 laptops and phones, each with an address of its own, that read the roster as people do. */
final class Crew {

    private static final int MEMBERS = 200;
    private static final int READS = 3;
    private static final double NS_PER_MS = 1e6;

    private final String bearer;
    private final Random random;
    private final List<PlainClient> members = new ArrayList<>();

    Crew(int port, String bearer, long seed) {
        this.bearer = bearer;
        this.random = Seeded.random(seed);
        for (int i = 0; i < MEMBERS; i++) {
            members.add(new PlainClient("127.0.1." + (i + 1), port));
        }
    }

    /**
     * What they lived through.
     *
     * @param waitsMs from the moment each read fell due until its last byte came, in ms, ascending
     * @param failures what was not answered with 200
     * @param liveRefused pages that were not kept live
     */
    record Seen(List<Double> waitsMs, List<String> failures, int liveRefused) {

        /** The wait that 99 % stay within, in ms. */
        double p99Ms() {
            return waitsMs.get((int) Math.ceil(waitsMs.size() * 0.99) - 1);
        }
    }

    /** Each reads three times at random moments of {@code length}; with {@code live} every second one keeps a page live meanwhile. */
    Seen read(Duration length, boolean live) throws InterruptedException, ExecutionException {
        ExecutorService threads = Executors.newFixedThreadPool(MEMBERS);
        try {
            List<Callable<Seen>> lives = new ArrayList<>();
            long startNs = SystemClocks.NANO.nanoTime();
            for (int i = 0; i < MEMBERS; i++) {
                int member = i;
                List<Long> due = new ArrayList<>();
                List<String> paths = new ArrayList<>();
                for (int read = 0; read < READS; read++) {
                    due.add(startNs + (long) (random.nextDouble() * length.toNanos()));
                    paths.add(path(member, random.nextInt(8)));
                }
                Collections.sort(due);
                lives.add(() -> live(member, due, paths, live && member % 2 == 0));
            }
            List<Double> waits = new ArrayList<>();
            List<String> failures = new ArrayList<>();
            int refused = 0;
            for (Future<Seen> one : threads.invokeAll(lives)) {
                waits.addAll(one.get().waitsMs);
                failures.addAll(one.get().failures);
                refused += one.get().liveRefused;
            }
            Collections.sort(waits);
            return new Seen(waits, failures, refused);
        } finally {
            threads.shutdownNow();
        }
    }

    private Seen live(int member, List<Long> due, List<String> paths, boolean phone) throws IOException {
        List<Double> waits = new ArrayList<>();
        List<String> failures = new ArrayList<>();
        PlainClient client = members.get(member);
        int refused = 0;
        try (Socket stream = client.connect()) {
            if (phone) {
                PlainClient.send(stream, "GET /live");
                refused = PlainClient.status(stream) == 200 ? 0 : 1;
            }
            for (int read = 0; read < due.size(); read++) {
                SystemClocks.PARK.waitUntil(due.get(read));
                try {
                    int status = client.get(paths.get(read), "Authorization: " + bearer);
                    if (status != 200) {
                        failures.add(paths.get(read) + ": " + status);
                    }
                } catch (IOException cut) {
                    failures.add(paths.get(read) + ": " + cut);
                }
                waits.add((SystemClocks.NANO.nanoTime() - due.get(read)) / NS_PER_MS);
            }
        }
        return new Seen(waits, failures, refused);
    }

    private static String path(int member, int kind) {
        return switch (kind) {
            case 0, 1, 2 -> "/";
            case 3 -> "/tonight?session=barn-32";
            case 4 -> "/?q=B4RN-00" + member % 100;
            case 5 -> "/drives.csv?standing=cleared";
            case 6 -> "/sync/1/names?limit=500";
            default -> "/drives/S-%03d".formatted(member % 200);
        };
    }
}
