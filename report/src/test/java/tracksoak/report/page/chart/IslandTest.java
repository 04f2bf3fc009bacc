package tracksoak.report.page.chart;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.List;
import org.junit.jupiter.api.Test;

class IslandTest {

    @Test
    void cannotBeLeftByItsOwnText() throws JsonProcessingException {
        String text = "</script><!-- <script> & \"";
        String island = Island.of(List.of(new ChartData(
                "c",
                "time",
                "ms",
                false,
                List.of(0.5, 1.5),
                List.of(new ChartData.Line("backlog", text, List.of(1.0, 2.0))),
                List.of(),
                List.of(),
                List.of())));
        assertThat(island).doesNotContain("<");
        JsonNode chart = new ObjectMapper().readTree(island).path(0);
        assertThat(chart.path("lines").path(0).path("text").asText()).isEqualTo(text);
        assertThat(chart.path("x").path(1).asDouble()).isEqualTo(1.5);
    }
}
