package tracksoak.bench.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.command.main.Main;
import tracksoak.bench.job.RosterAccess;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.store.RosterPlace;

/** What only the roster needs is not even loaded elsewhere: it would cost every start, and a fault in it every command. */
class LoadedClassesTest {

    private static final List<String> OF_THE_ROSTER =
            List.of("org.sqlite.", "org.postgresql.", "org.flywaydb.", "org.eclipse.jetty.");

    @TempDir
    Path folder;

    @ParameterizedTest
    @ValueSource(
            strings = {
                "--help",
                "sessions",
                "drives",
                "qualify --simulated steady-ssd --session trio-8 --plan line-check --no-roster --out HERE/out",
                "climb --simulated slow-stick --session trio-8 --dry-run",
                "clear HERE",
            })
    void aCommandWithoutARosterLoadsNoDatabase(String line) throws Exception {
        assertThat(loadedBy(line))
                .anyMatch(name -> name.startsWith("tracksoak.bench.command."))
                .allSatisfy(name -> assertThat(OF_THE_ROSTER).noneMatch(name::startsWith));
    }

    @Test
    void theRosterLoadsWhatThisTestLooksFor() throws Exception {
        Roster.open(RosterPlace.sqlite(folder.resolve("roster.db")), RosterAccess.clock())
                .close();
        assertThat(loadedBy("roster list --roster HERE/roster.db"))
                .anyMatch(name -> name.startsWith("org.sqlite."))
                .anyMatch(name -> name.startsWith("org.flywaydb."))
                .noneMatch(name -> name.startsWith("org.postgresql."))
                .noneMatch(name -> name.startsWith("org.eclipse.jetty."));
    }

    private List<String> loadedBy(String line) throws IOException, InterruptedException {
        Path log = folder.resolve("loaded.log");
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xlog:class+load:file=" + log + ":none",
                "-cp",
                System.getProperty("java.class.path"),
                Main.class.getName()));
        for (String word : line.split(" ", -1)) {
            command.add(word.replace("HERE", folder.toString()));
        }
        ProcessBuilder builder = new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .redirectOutput(new File(folder.toFile(), "said"));
        builder.environment().put("XDG_DATA_HOME", folder.resolve("data").toString());
        Process child = builder.start();
        try {
            assertThat(child.waitFor(2, TimeUnit.MINUTES)).as(line).isTrue();
            assertThat(child.exitValue())
                    .as(line + ": " + Files.readString(folder.resolve("said")))
                    .isZero();
        } finally {
            child.destroyForcibly();
        }
        return Files.readAllLines(log).stream()
                .map(loaded -> loaded.split(" ", 2)[0])
                .toList();
    }
}
