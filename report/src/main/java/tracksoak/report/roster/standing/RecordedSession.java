package tracksoak.report.roster.standing;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.util.Arrays;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Digests;
import tracksoak.report.record.sign.CanonicalJson;
import tracksoak.report.record.sign.VerifyKey;

/**
 * A session that a record was made for, named by all that it says, so that no order in which records arrive decides which of two is
 * meant. Any thread.
 *
 * @param id the first 16 bytes of the SHA-256 over its canonical JSON, 22 characters of base64url
 * @param session the session
 */
public record RecordedSession(String id, Session session) {

    private static final int BYTES = 16;
    private static final JsonMapper MAPPER = JsonMapper.builder()
            .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
            .build();

    /** The session with its name. */
    public static RecordedSession of(Session session) {
        byte[] sum = Digests.sha256(CanonicalJson.of(bytes(session)));
        return new RecordedSession(VerifyKey.encode(Arrays.copyOf(sum, BYTES)), session);
    }

    /** The session as JSON, for the store. */
    public String json() {
        try {
            return MAPPER.writeValueAsString(session);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a session cannot be written", e);
        }
    }

    /** A session as it was stored. */
    public static RecordedSession stored(String id, String json) {
        try {
            return new RecordedSession(id, MAPPER.readValue(json, Session.class));
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a stored session cannot be read", e);
        }
    }

    static byte[] bytes(Session session) {
        try {
            return MAPPER.writeValueAsBytes(session);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a session cannot be written", e);
        }
    }
}
