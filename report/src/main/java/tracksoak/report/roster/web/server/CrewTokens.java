package tracksoak.report.roster.web.server;

import java.util.List;
import java.util.Optional;

/** Where crew tokens are kept, without their secrets. Any thread. */
public interface CrewTokens {

    /** The one with that public part. */
    Optional<CrewToken> byId(String id);

    /** All, oldest first. */
    List<CrewToken> all();

    /** Adds one, or replaces the one of the same id. */
    void keep(CrewToken token);
}
