package tracksoak.report.roster.exchange;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Problem.Kind;

/** Walks the names of a roster's events in order, page by page; what does not ascend, or ascends without end, is refused. */
final class RefCursor {

    /** Most names walked: more events than any crew will have. */
    private static final int MOST = 5_000_000;

    private final RosterPeer peer;
    private final int page;
    private final int most;
    private List<String> refs = List.of();
    private int at;
    private String last = "";
    private boolean end;
    private int walked;

    RefCursor(RosterPeer peer, int page) {
        this(peer, page, MOST);
    }

    /** @param most most names walked */
    RefCursor(RosterPeer peer, int page, int most) {
        this.peer = peer;
        this.page = page;
        this.most = most;
        fill();
    }

    /** The name it stands at, null at the end. */
    @Nullable
    String current() {
        return at < refs.size() ? refs.get(at) : null;
    }

    /** Takes that name and goes on. */
    String take() {
        String taken = Objects.requireNonNull(current());
        at++;
        if (at == refs.size() && !end) {
            fill();
        }
        return taken;
    }

    private void fill() {
        refs = peer.refs(last, page);
        walked += refs.size();
        if (walked > most) {
            throw Kind.REFUSED.problem(
                    "the sync cannot go on",
                    "the other roster names more than " + most + " events",
                    "check its address, and that it is a Tracksoak roster");
        }
        at = 0;
        end = refs.size() < page;
        for (String ref : refs) {
            if (ref.compareTo(last) <= 0 || refs.size() > page) {
                throw Kind.REFUSED.problem(
                        "the sync cannot go on",
                        "the other roster's list of events is out of order or too long",
                        "check its address, and that it is a Tracksoak roster");
            }
            last = ref;
        }
    }

    /** Orders two names, of which null stands for the end. */
    static int compare(@Nullable String one, @Nullable String other) {
        if (one == null || other == null) {
            return one == null ? 1 : -1;
        }
        return one.compareTo(other);
    }
}
