package tracksoak.bench.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.report.roster.Postgres;

/** Runs the measuring program with a small roster, so that it cannot rot. Measures nothing. */
class RosterScaleTest {

    @Test
    void itRuns(@TempDir Path folder) throws Exception {
        try (Postgres postgres = new Postgres()) {
            assertThat(postgres.server().getPort()).isPositive();
        }
        ByteArrayOutputStream printed = new ByteArrayOutputStream();
        RosterScale scale = new RosterScale(
                folder, new PrintStream(printed, true, StandardCharsets.UTF_8), 50, Duration.ofMillis(300));
        scale.postgres(scale.made(150));
        assertThat(printed.toString(StandardCharsets.UTF_8).lines())
                .anyMatch(line -> line.startsWith("160 events"))
                .anyMatch(line -> line.startsWith("sync over HTTP, SQLite to PostgreSQL: 160 events"))
                .filteredOn(line -> line.matches("(query|whole request), 50 readers, .* p99 .*"))
                .hasSize(4);
    }
}
