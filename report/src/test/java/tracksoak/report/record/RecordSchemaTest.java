package tracksoak.report.record;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.json.RecordFile;
import tracksoak.report.record.json.RecordJson;
import tracksoak.report.record.json.RecordJsonTest;
import tracksoak.report.verdict.Judge;

/** The schema people get is the shape that is written, and every version ever written stays readable. */
public class RecordSchemaTest {

    private static final Path FIXTURES = Path.of("src/test/resources/records");

    private final Schema schema = read(3);

    private static Schema read(int version) {
        try {
            return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                    .getSchema(
                            Files.readString(Path.of("../docs/record-schema-" + version + ".json")), InputFormat.JSON);
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    public static Stream<RunRecord> written() {
        RunSketch running = RunSketch.good();
        running.state = RunState.RUNNING;
        running.phases.clear();
        return Stream.of(
                RecordJsonTest.fullRecord(),
                judged(RunSketch.good()),
                judged(RunSketch.goodLineCheck()),
                running.record());
    }

    @ParameterizedTest
    @MethodSource("written")
    void whatIsWrittenFitsTheSchema(RunRecord record) {
        assertThat(schema.validate(RecordJson.write(record), InputFormat.JSON)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
            "seed": "-42", | "seed": "-42", "more": 1,
            "seed": "-42", |
            "seed": "-42", | "seed": -42,
            "seed": "-42", | "seed": "-0",
            "state": "complete" | "state": "COMPLETE"
            "outcome": "NO_VERDICT" | "outcome": "no-verdict"
            "hangLimitS": 30 | "hangLimitS": -1
            "hangLimitS": 30 | "hangLimitS": "30"
            "kib": [0,4500,2147483647] | "kib": [0,4500,1.5]
            "stateReason": "" | "stateReason": null
            "kind": "take" | "kind": "rehearsal"
            """)
    void whatReadingRefusesTheSchemaRefusesToo(String from, String to) {
        String json = RecordJson.write(RecordJsonTest.fullRecord());
        assertThat(json).contains(from);
        assertThat(schema.validate(json.replace(from, to == null ? "" : to), InputFormat.JSON))
                .isNotEmpty();
    }

    @Test
    void everyVersionEverWrittenStaysReadable() throws IOException {
        List<Path> fixtures;
        try (Stream<Path> files = Files.list(FIXTURES)) {
            fixtures = files.sorted().toList();
        }
        Set<Integer> versions = new TreeSet<>();
        for (Path fixture : fixtures) {
            RunRecord record = RecordFile.load(fixture);
            assertThat(record.schema()).isEqualTo(RunRecord.SCHEMA);
            assertThat(Judge.judge(record).criteria()).as("%s", fixture).hasSize(10);
            int version = Integer.parseInt(fixture.getFileName().toString().split("-", 3)[1]);
            assertThat(read(version).validate(Files.readString(fixture), InputFormat.JSON))
                    .as("%s", fixture)
                    .isEmpty();
            versions.add(version);
            if (fixture.getFileName().toString().matches(".*-(pass|fail)\\.json")) {
                Verdict stored = Objects.requireNonNull(record.verdict());
                assertThat(Judge.judge(record).outcome()).as("%s", fixture).isEqualTo(stored.outcome());
            }
        }
        assertThat(versions).containsExactly(1, 2, 3);
    }

    private static RunRecord judged(RunSketch run) {
        RunRecord facts = run.record();
        return facts.withVerdict(Judge.judge(facts));
    }
}
