package tracksoak.report.roster.standing;

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
        return new SessionTerms(
                Digests.sha256Hex(CanonicalJson.of(RecordedSession.bytes(bare))).substring(0, 16), session);
    }
}
