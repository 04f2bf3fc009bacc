package tracksoak.report.roster.standing;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
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

    /**
     * Names what a session asks, without its name: two laptops may know different sessions by one name, and one by two.
     *
     * @return 16 hexadecimal digits of the SHA-256 over what is asked
     */
    public static String terms(Session session) {
        Session bare = session.but()
                .name("")
                .title("")
                .about("")
                .bufferAssumed(false)
                .fileSystems(List.copyOf(new TreeSet<>(session.fileSystems())))
                .validDays(Session.USUAL_VALID_DAYS)
                .build();
        return Digests.sha256Hex(CanonicalJson.of(bytes(bare))).substring(0, 16);
    }

    private static byte[] bytes(Session session) {
        try {
            return Json.MAPPER.writeValueAsBytes(session);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a session cannot be written", e);
        }
    }
}
