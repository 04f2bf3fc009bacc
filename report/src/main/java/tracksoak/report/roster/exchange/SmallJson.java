package tracksoak.report.roster.exchange;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import tracksoak.profiles.base.Inert;

/**
 * Reads small documents of other computers: what they hold is counted while it is read, so that a few MB of brackets do not become a few GB of
 * memory. Stateless; any thread.
 */
final class SmallJson {

    /** Receipts speak of 200 events at most, with five parts each. */
    private static final int MOST_TOKENS = 5_000;

    private static final JsonMapper MAPPER = JsonMapper.builder(JsonFactory.builder()
                    .streamReadConstraints(StreamReadConstraints.builder()
                            .maxNestingDepth(8)
                            .maxNameLength(100)
                            .maxNumberLength(30)
                            .maxStringLength(100_000)
                            .maxTokenCount(MOST_TOKENS)
                            .build())
                    .build())
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    private SmallJson() {}

    /** @throws IOException if it is no JSON, holds too much or a key twice, or something follows it */
    static JsonNode read(byte[] json) throws IOException {
        return MAPPER.readTree(json);
    }

    /** The sentence of what a server says of a request it did not serve, harmless to look at and of bounded length; empty where it says nothing that can be read. */
    static String sentence(byte[] json, int most) {
        try {
            JsonNode root = read(json);
            String why = root.path("why").asText("");
            String what = root.path("what").asText("");
            String said = Inert.text(what.isEmpty() || why.isEmpty() ? what + why : what + ": " + why);
            return said.length() <= most ? said : said.substring(0, most) + "…";
        } catch (IOException e) {
            return "";
        }
    }
}
