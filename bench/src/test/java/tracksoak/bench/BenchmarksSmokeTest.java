package tracksoak.bench;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Collection;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Isolated;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.openjdk.jmh.runner.options.TimeValue;
import org.openjdk.jmh.runner.options.VerboseMode;

/** Runs every benchmark once for next to no time, so that none can rot. Measures nothing. */
@Isolated("sets properties of the whole process and runs threads of its own")
class BenchmarksSmokeTest {

    @Test
    void everyBenchmarkRuns() throws Exception {
        System.setProperty("tracksoak.smoke", "true");
        System.setProperty("tracksoak.folder", "target");
        Collection<RunResult> results = new Runner(new OptionsBuilder()
                        .include("tracksoak\\..*")
                        .forks(0)
                        .warmupIterations(0)
                        .measurementIterations(1)
                        .measurementTime(TimeValue.milliseconds(10))
                        .shouldFailOnError(true)
                        .verbosity(VerboseMode.SILENT)
                        .build())
                .run();
        assertThat(results).hasSizeGreaterThan(5);
    }
}
