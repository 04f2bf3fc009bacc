package tracksoak.report.roster.web.page;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.report.roster.Roster;

/** The sessions a visitor can ask about, worked out anew only where records for another one came. Any thread. */
final class FreshSessionChoices implements Supplier<SessionChoices> {

    private final Roster roster;
    private final List<Session> own;
    private volatile @Nullable Known last;

    private record Known(long version, List<Session> recorded, SessionChoices sessions) {}

    FreshSessionChoices(Roster roster, List<Session> own) {
        this.roster = roster;
        this.own = List.copyOf(own);
    }

    @Override
    public SessionChoices get() {
        long version = roster.version();
        Known known = last;
        return known != null && known.version == version ? known.sessions : fresh(version);
    }

    private synchronized SessionChoices fresh(long version) {
        Known known = last;
        if (known != null && known.version == version) {
            return known.sessions;
        }
        List<Session> recorded = roster.sessions();
        SessionChoices sessions;
        if (known != null && known.recorded.equals(recorded)) {
            sessions = known.sessions;
        } else {
            // the reader's own come first: of two that ask the same, theirs says how long a PASS counts
            List<Session> all = new ArrayList<>(own);
            all.addAll(recorded);
            sessions = new SessionChoices(all);
        }
        last = new Known(version, recorded, sessions);
        return sessions;
    }
}
