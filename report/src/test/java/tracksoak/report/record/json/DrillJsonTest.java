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
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import tracksoak.report.record.DrillSketch;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.drill.DrillRecord;

class DrillJsonTest {

    private static Schema schema() throws IOException {
        return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(Files.readString(Path.of("../docs/drill-record-schema-2.json")), InputFormat.JSON);
    }

    private static DrillRecord read(String json) {
        return RecordFormats.DRILL.read(json.getBytes(StandardCharsets.UTF_8));
    }

    @ParameterizedTest
    @EnumSource(DrillRecord.State.class)
    void whatIsWrittenReadsBackEqualAndFitsTheSchema(DrillRecord.State state) throws IOException {
        DrillSketch drill = DrillSketch.twoTracks();
        drill.state = state;
        if (state != DrillRecord.State.COMPLETE) {
            drill.stateReason = "because";
            drill.stop = null;
            drill.pull = null;
            drill.back = null;
            drill.tracks.clear();
            drill.files.clear();
        }
        DrillRecord record = drill.record();
        String json = RecordFormats.DRILL.write(record);
        assertThat(read(json)).isEqualTo(record);
        assertThat(schema().validate(json, InputFormat.JSON)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
            "seed": "-7", | "seed": "-7", "more": 1,
            "seed": "-7", |
            "state": "complete" | "state": "COMPLETE"
            "atS": 20, | "atS": -1,
            "atS": 20, | "atS": "20",
            "atS": 20, | "atS": null,
            "use": "opens" | "use": "plays"
            "schema": "tracksoak/drill-record/2" | "schema": "tracksoak/drill-record/3"
            """)
    void whatReadingRefusesTheSchemaRefusesToo(String from, String to) throws IOException {
        String json = RecordFormats.DRILL.write(DrillSketch.twoTracks().record());
        assertThat(json).contains(from);
        String wrong = json.replace(from, to == null ? "" : to);
        assertThatThrownBy(() -> read(wrong)).isInstanceOf(RecordException.class);
        assertThat(schema().validate(wrong, InputFormat.JSON)).isNotEmpty();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
            "state": "complete" | "state": "running" | findings
            "flushedBytes": 1440000 | "flushedBytes": 2600000 | flushedBytes
            "droppedBytes": 0 | "droppedBytes": 3000000 | droppedBytes
            "readableBytes": 2592000, "laterBytes": 0 | "readableBytes": null, "laterBytes": 0 | readableBytes
            "startedAt": " | "startedAt": "never | startedAt
            """)
    void whatContradictsItselfIsRefused(String from, String to, String where) {
        String json = RecordFormats.DRILL.write(DrillSketch.twoTracks().record());
        String flat = json.replaceAll("\\s*\\n\\s*", " ");
        assertThat(flat).contains(from);
        assertThatThrownBy(() -> read(flat.replace(from, to)))
                .isInstanceOf(RecordException.class)
                .hasMessageContaining(where);
    }

    @Test
    void aRunRecordIsNoDrill() {
        assertThatThrownBy(() -> RecordFormats.DRILL.read(
                        RecordJson.bytes(RunSketch.good().record())))
                .isInstanceOf(RecordException.class)
                .hasMessageContaining("drill");
        assertThatThrownBy(() -> RecordJson.read(
                        RecordFormats.DRILL.bytes(DrillSketch.twoTracks().record())))
                .isInstanceOf(RecordException.class);
    }

    /** A file that version 1 wrote. */
    @Test
    void theVersionBeforeStaysReadable() throws IOException {
        byte[] old = Files.readAllBytes(Path.of("src/test/resources/older/drill-1.json"));
        DrillRecord record = RecordFormats.DRILL.read(old);
        assertThat(record.schema()).isEqualTo(DrillRecord.SCHEMA);
        assertThat(record.seed().value()).isEqualTo(-7);
        assertThat(record.drive().volume()).isEqualTo(DriveFacts.Volume.UNKNOWN);
        String odd = new String(old, StandardCharsets.UTF_8).replace("\"seed\": -7", "\"seed\": 1.5");
        assertThatThrownBy(() -> RecordFormats.DRILL.read(odd.getBytes(StandardCharsets.UTF_8)))
                .isInstanceOf(RecordException.class)
                .hasMessageContaining("seed");
    }
}
