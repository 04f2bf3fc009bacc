package tracksoak.report.roster;

import java.time.Instant;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import tracksoak.report.roster.standing.Standing;

/**
 * A list of drives as it was at one moment.
 *
 * @param at when it was asked, which decides what is due
 * @param rows the rows of the page asked for
 * @param found rows of all pages
 * @param counts drives per standing, before any was left out for its standing
 * @param held drives there are, before any was left out
 * @param unsettled drives left out for nothing but their tag, which is to be settled
 */
public record Board(
        Instant at, List<BoardRow> rows, int found, Map<Standing, Integer> counts, int held, int unsettled) {

    public Board {
        rows = List.copyOf(rows);
        EnumMap<Standing, Integer> copy = new EnumMap<>(Standing.class);
        copy.putAll(counts);
        counts = Collections.unmodifiableMap(copy);
    }
}
