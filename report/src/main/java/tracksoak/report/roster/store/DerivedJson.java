package tracksoak.report.roster.store;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import tracksoak.report.roster.standing.RecordDigest;

/** What follows from events as JSON in the store. It is never exchanged, and made again where a newer program works out more. */
final class DerivedJson {

    /** Grows when a program works out something else from the same events. */
    static final int VERSION = 9;

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
            .build();

    private DerivedJson() {}

    static String write(Object derived) {
        try {
            return MAPPER.writeValueAsString(derived);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a derived value cannot be written", e);
        }
    }

    static RecordDigest digest(String json) {
        return read(json, RecordDigest.class);
    }

    private static <T> T read(String json, Class<T> type) {
        try {
            return MAPPER.readValue(json, type);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a derived value cannot be read: rebuild the roster", e);
        }
    }
}
