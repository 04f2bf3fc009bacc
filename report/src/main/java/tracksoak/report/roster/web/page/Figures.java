package tracksoak.report.roster.web.page;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.RunRecord;

/** Figures of records, kept because records never change and reading one takes a while. Bounded. Any thread. */
final class Figures {

    private static final int MOST_KEPT = 20_000;

    private final Function<String, RunRecord> records;
    private final Map<String, RunFigures> kept = new LinkedHashMap<>(256, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<String, RunFigures> eldest) {
            return size() > MOST_KEPT;
        }
    };

    /** @param records reads a record by its SHA-256 */
    Figures(Function<String, RunRecord> records) {
        this.records = records;
    }

    /** Those of one record; empty where it cannot be read. */
    Optional<RunFigures> of(String sha256) {
        synchronized (kept) {
            RunFigures known = kept.get(sha256);
            if (known != null) {
                return Optional.of(known);
            }
        }
        RunFigures read;
        try {
            read = RunFigures.of(records.apply(sha256));
        } catch (Problem e) {
            return Optional.empty();
        }
        synchronized (kept) {
            kept.put(sha256, read);
        }
        return Optional.of(read);
    }
}
