package tracksoak.report.roster.standing;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;

/** Events in memory, looked through one by one. Tests only. */
public final class PlainSource implements DriveFold.Source {

    private final Map<String, KnownEvent> events = new LinkedHashMap<>();

    /** @param events in any order, some perhaps twice */
    public PlainSource(Collection<KnownEvent> events) {
        events.forEach(known -> this.events.put(known.ref(), known));
    }

    private List<KnownEvent> those(Predicate<KnownEvent> wanted) {
        return new ArrayList<>(events.values().stream().filter(wanted).toList());
    }

    @Override
    public List<KnownEvent> about(String drive) {
        return those(known -> drive.equals(known.event().drive()));
    }

    @Override
    public List<KnownEvent> takingBack(String drive) {
        return about(drive);
    }

    @Override
    public List<KnownEvent> tagging(String loose) {
        return those(known -> loose.equals(known.event().looseDrive())
                && !loose.equals(known.event().drive()));
    }

    @Override
    public List<String> damagedWithdrawals(String drive) {
        return List.of();
    }
}
