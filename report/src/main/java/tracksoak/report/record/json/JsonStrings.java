package tracksoak.report.record.json;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** Small JSON objects of strings. */
public final class JsonStrings {

    private JsonStrings() {}

    /** An object of names and values in turn, in UTF-8. */
    public static byte[] object(String... namesAndValues) {
        ObjectNode node = RecordMapper.MAPPER.createObjectNode();
        for (int i = 0; i < namesAndValues.length; i += 2) {
            node.put(namesAndValues[i], namesAndValues[i + 1]);
        }
        try {
            return RecordMapper.MAPPER.writeValueAsBytes(node);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("an object of strings cannot be written", e);
        }
    }
}
