package tracksoak.report.roster.standing;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.util.List;
import java.util.TreeSet;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Digests;
import tracksoak.report.record.sign.CanonicalJson;

/**
 * What a session asks, without its name: two laptops may know different sessions by one name, and one by two. Any thread.
 *
 * @param id 16 hexadecimal digits of the SHA-256 over what is asked
 * @param session one session that asks it
 */
public record SessionTerms(String id, Session session) {

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
            .build();

    /** The terms of a session. */
    public static SessionTerms of(Session session) {
        Session bare = session.but()
                .name("")
                .title("")
                .about("")
                .bufferAssumed(false)
                .fileSystems(List.copyOf(new TreeSet<>(session.fileSystems())))
                .validDays(Session.USUAL_VALID_DAYS)
                .build();
        return new SessionTerms(Digests.sha256Hex(CanonicalJson.of(bytes(bare))).substring(0, 16), session);
    }

    /** The session as JSON, for the store. */
    public String json() {
        try {
            return MAPPER.writeValueAsString(session);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a session cannot be written", e);
        }
    }

    /** Terms as they were stored. */
    public static SessionTerms stored(String id, String json) {
        try {
            return new SessionTerms(id, MAPPER.readValue(json, Session.class));
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a stored session cannot be read", e);
        }
    }

    private static byte[] bytes(Session session) {
        try {
            return MAPPER.writeValueAsBytes(session);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a session cannot be written", e);
        }
    }
}
