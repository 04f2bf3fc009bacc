package tracksoak.report.roster.web;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.report.roster.Roster;

/** The sessions a visitor can ask about, worked out anew only after the roster changed. Any thread. */
final class FreshSessions implements Supplier<Sessions> {

    private final Roster roster;
    private final List<Session> own;
    private volatile @Nullable Known last;

    private record Known(long version, Sessions sessions) {}

    FreshSessions(Roster roster, List<Session> own) {
        this.roster = roster;
        this.own = List.copyOf(own);
    }

    @Override
    public Sessions get() {
        long version = roster.version();
        Known known = last;
        if (known == null || known.version != version) {
            List<Session> all = new ArrayList<>(roster.sessions());
            all.addAll(own);
            known = new Known(version, new Sessions(all));
            last = known;
        }
        return known.sessions;
    }
}
