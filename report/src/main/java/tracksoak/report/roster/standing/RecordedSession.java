package tracksoak.report.roster.standing;

import com.fasterxml.jackson.core.JsonProcessingException;
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

    /** Not loaded where sessions are only read back from the store. */
    private static final class Json {
        static final JsonMapper MAPPER = new JsonMapper();
    }

    /** The session with its name. */
    public static RecordedSession of(Session session) {
        byte[] sum = Digests.sha256(CanonicalJson.of(bytes(session)));
        return new RecordedSession(VerifyKey.encode(Arrays.copyOf(sum, BYTES)), session);
    }

    static byte[] bytes(Session session) {
        try {
            return Json.MAPPER.writeValueAsBytes(session);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a session cannot be written", e);
        }
    }
}
