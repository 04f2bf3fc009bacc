package tracksoak.report.record.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import tracksoak.report.record.ClimbSketch;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.RecordException;

/** Climb records: what is written reads back equal and fits the schema; anything else is refused. */
class ClimbJsonTest {

    static Stream<ClimbRecord> written() {
        return Stream.of(ClimbSketch.found(), ClimbSketch.hostile(), ClimbSketch.begun());
    }

    private static Schema schema() throws IOException {
        return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(Files.readString(Path.of("../docs/climb-record-schema-2.json")), InputFormat.JSON);
    }

    private static ClimbRecord read(String json) {
        return RecordFormats.CLIMB.read(json.getBytes(StandardCharsets.UTF_8));
    }

    @ParameterizedTest
    @MethodSource("written")
    void whatIsWrittenReadsBackEqualAndFitsTheSchema(ClimbRecord record) throws IOException {
        String json = RecordFormats.CLIMB.write(record);
        assertThat(read(json)).isEqualTo(record);
        assertThat(json).isASCII();
        assertThat(schema().validate(json, InputFormat.JSON)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
            "seed": "-42", | "seed": "-42", "more": 1,
            "seed": "-42", |
            "state": "complete" | "state": "COMPLETE"
            tracksoak/climb-record/2 | tracksoak/climb-record/3
            tracksoak/climb-record/2 | tracksoak/run-record/1
            "shortTakeS": 60 | "shortTakeS": -60
            "shortTakeS": 60 | "shortTakeS": "60"
            "grows": "tracks" | "grows": "wings"
            "kind": "check" | "kind": "guess"
            "mostBecause": "More was not tried." | "mostBecause": null
            """)
    void whatReadingRefusesTheSchemaRefusesToo(String from, String to) throws IOException {
        String json = RecordFormats.CLIMB.write(ClimbSketch.found());
        assertThat(json).contains(from);
        String changed = json.replace(from, to == null ? "" : to);
        assertThatThrownBy(() -> read(changed))
                .isInstanceOf(RecordException.class)
                .hasMessageContaining("the climb record cannot be read");
        assertThat(schema().validate(changed, InputFormat.JSON)).isNotEmpty();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
            "at": 39 | "at": 65 | steps[3].at
            "carried": true, | "carried": false, |
            "most": 64 | "most": 0 | ladder.most
            "how": "confirmed" | "how": "none" | result.withMargin.at
            """)
    void figuresThatCannotBeAreRefused(String from, String to, String where) {
        String json = RecordFormats.CLIMB.write(ClimbSketch.found());
        assertThat(json).contains(from);
        if (where == null) {
            // what was carried may be said not to have been; the other way round audio would have been lost and carried
            assertThat(read(json.replace(from, to)).steps().get(0).carried()).isFalse();
        } else {
            assertThatThrownBy(() -> read(json.replace(from, to)))
                    .isInstanceOf(RecordException.class)
                    .hasMessageContaining(where);
        }
    }

    @Test
    void audioCannotBeLostAndCarried() {
        String json = RecordFormats.CLIMB.write(ClimbSketch.found());
        assertThatThrownBy(() -> read(json.replace("\"carried\": false", "\"carried\": true")))
                .isInstanceOf(RecordException.class)
                .hasMessageContaining("steps[3].kept");
    }

    /** One byte of a record changed, cut off or doubled: it reads, or the error says so in words. */
    @Test
    void damagedRecordsAreRefusedInWords() {
        byte[] whole = RecordFormats.CLIMB.write(ClimbSketch.found()).getBytes(StandardCharsets.UTF_8);
        for (long seed = 42_260_000L; seed < 42_260_000L + 2_000; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            byte[] damaged = random.nextInt(3) == 0
                    ? java.util.Arrays.copyOf(whole, random.nextInt(whole.length))
                    : whole.clone();
            if (damaged.length > 0) {
                damaged[random.nextInt(damaged.length)] = (byte) random.nextInt(256);
            }
            try {
                RecordFormats.CLIMB.read(damaged);
            } catch (RecordException refused) {
                assertThat(refused.getMessage()).as("seed " + seed).startsWith("the climb record cannot be read");
            }
        }
    }

    @Test
    void isSavedWhole(@TempDir Path folder) throws IOException {
        Path file = folder.resolve("new/climb.json");
        RecordFormats.CLIMB.save(file, ClimbSketch.begun());
        RecordFormats.CLIMB.save(file, ClimbSketch.found());
        assertThat(read(Files.readString(file))).isEqualTo(ClimbSketch.found());
        try (Stream<Path> files = Files.list(folder.resolve("new"))) {
            assertThat(files).containsExactly(file);
        }
    }

    /** A file that version 1 wrote. */
    @Test
    void theVersionBeforeStaysReadable() throws IOException {
        byte[] old = Files.readAllBytes(Path.of("src/test/resources/older/climb-1.json"));
        ClimbRecord record = RecordFormats.CLIMB.read(old);
        assertThat(record.schema()).isEqualTo(ClimbRecord.SCHEMA);
        assertThat(record.seed().value()).isEqualTo(-42);
        assertThat(record.drive().volume()).isEqualTo(DriveFacts.Volume.UNKNOWN);
        String odd = new String(old, StandardCharsets.UTF_8).replace("\"seed\": -42", "\"seed\": 1.5");
        assertThatThrownBy(() -> RecordFormats.CLIMB.read(odd.getBytes(StandardCharsets.UTF_8)))
                .isInstanceOf(RecordException.class)
                .hasMessageContaining("seed");
    }
}
