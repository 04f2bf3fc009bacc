package tracksoak.report.roster.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.exchange.RemoteRoster;
import tracksoak.report.roster.exchange.RosterPeer;
import tracksoak.report.roster.exchange.Sync;
import tracksoak.report.roster.web.server.Limits;

/** A crew whose laptops all hand over at the same time. A row of "Attacks tried" in docs/roster.md names the test here. */
class ManyLaptopsTest {

    @TempDir
    Path folder;

    /** A roster in memory that holds what it is given. */
    private static final class Laptop implements RosterPeer {

        private final TreeMap<String, Parcel> parcels = new TreeMap<>();

        Laptop(List<Parcel> own) {
            push(own);
        }

        @Override
        public List<String> refs(String after, int limit) {
            return parcels.tailMap(after, false).keySet().stream().limit(limit).toList();
        }

        @Override
        public List<Parcel> pull(List<String> refs) {
            return refs.stream().filter(parcels::containsKey).map(parcels::get).toList();
        }

        @Override
        public Receipt push(List<Parcel> more) {
            more.forEach(parcel -> parcels.put(parcel.event().ref(), parcel));
            return new Receipt(more.size(), 0, List.of());
        }
    }

    /** All behind one address, with less memory for bodies than all of them need at once. */
    @Test
    @Timeout(180)
    void fiftyLaptopsAtOnceAllFinish() throws Exception {
        List<Parcel> all = held();
        try (Served server = new Served(
                folder.resolve("crew"),
                settings -> settings.withLimits(
                        new Limits(1_000, 8_192, 300_000, 1, 15, 60, 120, 500, 1_000, 10, 6, 400)))) {
            Thread clock = StarvationTest.ticking(server);
            ExecutorService crew = Executors.newFixedThreadPool(50);
            try {
                List<Callable<Sync.Result>> syncs = new ArrayList<>();
                for (int i = 0; i < 50; i++) {
                    Laptop laptop = new Laptop(all.subList(i * 3, i * 3 + 12));
                    RosterPeer there = new RemoteRoster(server.base(), server.token.text(), null);
                    syncs.add(() -> Sync.run(laptop, there, (fetched, handedOver) -> {}));
                }
                for (Future<Sync.Result> sync : crew.invokeAll(syncs)) {
                    assertThat(sync.get().handedOver().refused()).isEmpty();
                }
            } finally {
                crew.shutdownNow();
                clock.interrupt();
            }
            Set<String> handed = new HashSet<>();
            all.subList(0, 159).forEach(parcel -> handed.add(parcel.event().ref()));
            assertThat(server.roster.peer().refs("", 5_000)).containsAll(handed);
            assertThat(server.failures).isEmpty();
        }
    }

    /** What another server of the crew holds. */
    private List<Parcel> held() throws IOException {
        List<Parcel> all = new ArrayList<>();
        try (Served other = StarvationTest.filled(Files.createDirectory(folder.resolve("other")))) {
            RosterPeer source = other.roster.peer();
            List<String> refs = source.refs("", 200);
            while (all.size() < refs.size()) {
                all.addAll(source.pull(refs.subList(all.size(), Math.min(refs.size(), all.size() + 50))));
            }
        }
        return all;
    }
}
