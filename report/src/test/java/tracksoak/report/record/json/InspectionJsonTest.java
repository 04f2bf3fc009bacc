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
import tracksoak.profiles.base.KebabCase;
import tracksoak.report.record.InspectionSketch;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.inspection.FindingKind;
import tracksoak.report.record.facts.inspection.InspectionRecord;

class InspectionJsonTest {

    private static Schema schema() throws IOException {
        return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(Files.readString(Path.of("../docs/inspection-record-schema-1.json")), InputFormat.JSON);
    }

    private static InspectionRecord read(String json) {
        return RecordFormats.INSPECTION.read(json.getBytes(StandardCharsets.UTF_8));
    }

    @Test
    void whatIsWrittenReadsBackEqualAndFitsTheSchema() throws IOException {
        InspectionRecord record = InspectionSketch.ofTwoTracks();

        String json = RecordFormats.INSPECTION.write(record);

        assertThat(read(json)).isEqualTo(record);
        assertThat(schema().validate(json, InputFormat.JSON)).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(FindingKind.class)
    void theSchemaKnowsEveryKindOfFinding(FindingKind kind) throws IOException {
        String json = RecordFormats.INSPECTION
                .write(InspectionSketch.ofTwoTracks())
                .replace("\"signal-missing\"", "\"" + KebabCase.of(kind) + "\"");

        assertThat(schema().validate(json, InputFormat.JSON)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
            "otherFiles": 3, | "otherFiles": 3, "more": 1,
            "otherFiles": 3, |
            "otherFiles": 3, | "otherFiles": -3,
            "outcome": "FAIL" | "outcome": "fail"
            "atS": 751.25, | "atS": -1,
            "atS": 751.25, | "atS": "751.25",
            "weight": "fault" | "weight": "bad"
            "splits": 1, | "splits": 0,
            "schema": "tracksoak/inspection-record/1" | "schema": "tracksoak/inspection-record/2"
            """)
    void whatReadingRefusesTheSchemaRefusesToo(String from, String to) throws IOException {
        String json = RecordFormats.INSPECTION.write(InspectionSketch.ofTwoTracks());
        assertThat(json).contains(from);
        String wrong = json.replace(from, to == null ? "" : to);

        assertThatThrownBy(() -> read(wrong)).isInstanceOf(RecordException.class);
        assertThat(schema().validate(wrong, InputFormat.JSON)).isNotEmpty();
    }
}
