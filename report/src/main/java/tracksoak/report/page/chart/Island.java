package tracksoak.report.page.chart;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.List;

/** Charts as JSON that may stand inside a script element: no {@code <}, so nothing in it can end the element. */
public final class Island {

    private static final ObjectMapper JSON = new ObjectMapper();

    private Island() {}

    /** The charts as one JSON array. */
    public static String of(List<ChartData> charts) {
        try {
            return JSON.writeValueAsString(charts).replace("<", "\\u003c");
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("charts of plain numbers always become JSON", e);
        }
    }
}
