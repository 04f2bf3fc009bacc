package tracksoak.report.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.record.json.RecordJson;

class FillPartTest {

    @Test
    void theSecondAFillEndsInIsNoFallOfTheRate() throws IOException {
        ObjectMapper json = new ObjectMapper();
        JsonNode record = json.readTree(RecordJson.bytes(Showcase.pass()));
        ObjectNode fill = fill(record);
        fill.put("seconds", fill.get("seconds").asDouble() - 0.97);
        ArrayNode kib = (ArrayNode) fill.get("series").get("kib");
        kib.set(kib.size() - 1, 700);

        List<ChartData> charts = new ArrayList<>();
        new FillPart().of(RecordJson.read(json.writeValueAsBytes(record)), charts);

        assertThat(charts.get(0).lines().get(0).y())
                .allSatisfy(rate -> assertThat(rate).isGreaterThan(10));
    }

    private static ObjectNode fill(JsonNode record) {
        for (JsonNode phase : record.get("phases")) {
            if (phase.get("kind").asText().equals("fill")) {
                return (ObjectNode) phase;
            }
        }
        throw new AssertionError("no fill in this record");
    }
}
