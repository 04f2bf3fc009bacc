package tracksoak.report.roster.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.report.roster.standing.DriveState;

/** A writer killed in the middle: what it acknowledged is there, whole, and what follows from it too. */
class KilledTest {

    @Test
    void nothingAcknowledgedIsLostAndNothingIsHalfThere(@TempDir Path folder) throws IOException, InterruptedException {
        Path file = folder.resolve("roster.db");
        List<String> acknowledged = new ArrayList<>();
        for (int round = 0; round < 3; round++) {
            Process writer = new ProcessBuilder(
                            Path.of(System.getProperty("java.home"), "bin", "java")
                                    .toString(),
                            "-XX:+UseSerialGC",
                            "-XX:TieredStopAtLevel=1",
                            "-cp",
                            System.getProperty("java.class.path"),
                            KilledWriter.class.getName(),
                            file.toString())
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
            try (BufferedReader out =
                    new BufferedReader(new InputStreamReader(writer.getInputStream(), StandardCharsets.UTF_8))) {
                for (int i = 0; i < 5 + 3 * round; i++) {
                    acknowledged.add(out.readLine());
                }
                writer.toHandle().destroyForcibly(); // the process alone, so that what it said before can still be read
                for (String more = out.readLine(); more != null; more = out.readLine()) {
                    if (more.length() == 49) {
                        acknowledged.add(more);
                    }
                }
            }
            assertThat(writer.waitFor(60, TimeUnit.SECONDS)).isTrue();
        }
        assertThat(acknowledged).doesNotContainNull().hasSizeGreaterThanOrEqualTo(24);
        try (SqlStore store = SqlStore.open(RosterPlace.sqlite(file))) {
            List<String> refs = store.refs("", 100_000);
            assertThat(refs).containsAll(acknowledged);
            assertThat(store.parcels(refs, Long.MAX_VALUE))
                    .allMatch(parcel -> parcel.event().record() == null || parcel.gzip() != null);
            List<DriveState> before = sorted(store);
            store.rebuild();
            assertThat(sorted(store)).isEqualTo(before);
        }
    }

    private static List<DriveState> sorted(SqlStore store) {
        return store.changedSince(-1).states().stream()
                .sorted(Comparator.comparing(DriveState::id))
                .toList();
    }
}
