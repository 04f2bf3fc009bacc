package tracksoak.report.roster;

import java.time.Instant;
import java.util.Arrays;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import tracksoak.report.roster.standing.Standing;
import tracksoak.report.roster.standing.TimeSpan;

/**
 * The rows for one session as they are while a span of time holds, in the orders they were asked for. Where a few drives change, their rows alone
 * are put in at their places; what comes of it is what sorting all anew gives. Any thread.
 */
final class SessionRows {

    private static final Order BY_LABEL = new Order(BoardQuery.Sort.LABEL, false);

    private final TimeSpan span;
    private final Map<Standing, Integer> counts;
    private final Map<Order, List<ListedRow>> orders = new ConcurrentHashMap<>();

    private record Order(BoardQuery.Sort sort, boolean descending) {
        @Override
        public int hashCode() {
            return 2 * sort.name().hashCode() + (descending ? 1 : 0);
        }

        @Override
        public boolean equals(@Nullable Object other) {
            return other instanceof Order order && sort == order.sort && descending == order.descending;
        }

        Comparator<ListedRow> comparator() {
            return BoardOrder.of(sort, descending);
        }
    }

    private SessionRows(TimeSpan span, Map<Standing, Integer> counts) {
        this.span = span;
        this.counts = counts;
    }

    static SessionRows of(List<ListedRow> rows, Instant now) {
        SessionRows made = new SessionRows(span(rows), counts(rows));
        made.orders.put(BY_LABEL, sorted(rows, BY_LABEL));
        return made;
    }

    boolean holds(Instant now) {
        return span.holds(now);
    }

    /** Drives per standing; every standing is there. */
    Map<Standing, Integer> counts() {
        return counts;
    }

    List<ListedRow> by(BoardQuery.Sort sort, boolean descending) {
        // of those who ask for a new order at once, one sorts and the others wait for it
        return orders.computeIfAbsent(new Order(sort, descending), order -> sorted(byLabel(), order));
    }

    /**
     * The rows after some drives changed.
     *
     * @param before the drives that are other now, as they were; those not shown are passed over
     * @param rows their rows, and those of new drives
     */
    SessionRows with(Collection<KnownDrive> before, List<ListedRow> rows, Instant now) {
        Map<Standing, Integer> changed = new EnumMap<>(counts);
        SessionRows next = new SessionRows(span.and(span(rows)), changed);
        List<ListedRow> gone =
                before.stream().filter(drive -> !drive.moved()).map(this::rowOf).toList();
        gone.forEach(row -> changed.merge(row.standing(), -1, Integer::sum));
        rows.forEach(row -> changed.merge(row.standing(), 1, Integer::sum));
        orders.forEach((order, old) -> next.orders.put(order, replaced(old, gone, sorted(rows, order), order)));
        return next;
    }

    private ListedRow rowOf(KnownDrive drive) {
        List<ListedRow> all = byLabel();
        int low = 0;
        int high = all.size() - 1;
        while (low <= high) {
            int middle = (low + high) >>> 1;
            int side = BoardOrder.DRIVES.compare(all.get(middle).drive(), drive);
            if (side == 0) {
                return all.get(middle);
            }
            if (side < 0) {
                low = middle + 1;
            } else {
                high = middle - 1;
            }
        }
        throw new IllegalStateException("a drive that was shown is not in the list: " + drive.id());
    }

    private List<ListedRow> byLabel() {
        return orders.getOrDefault(BY_LABEL, List.of());
    }

    private static List<ListedRow> replaced(
            List<ListedRow> old, List<ListedRow> gone, List<ListedRow> come, Order order) {
        Comparator<ListedRow> comparator = order.comparator();
        boolean[] leaves = new boolean[old.size()];
        gone.forEach(row -> leaves[Collections.binarySearch(old, row, comparator)] = true);
        ListedRow[] merged = new ListedRow[old.size() - gone.size() + come.size()];
        int size = 0;
        int from = 0;
        for (ListedRow row : come) {
            int found = Collections.binarySearch(old, row, comparator);
            int place = found < 0 ? -found - 1 : found;
            size = stay(old, leaves, from, place, merged, size);
            merged[size++] = row;
            from = place;
        }
        stay(old, leaves, from, old.size(), merged, size);
        return Arrays.asList(merged);
    }

    private static int stay(List<ListedRow> old, boolean[] leaves, int from, int to, ListedRow[] merged, int size) {
        int next = size;
        for (int i = from; i < to; i++) {
            if (!leaves[i]) {
                merged[next++] = old.get(i);
            }
        }
        return next;
    }

    private static List<ListedRow> sorted(List<ListedRow> rows, Order order) {
        ListedRow[] sorted = rows.toArray(ListedRow[]::new);
        Arrays.sort(sorted, order.comparator());
        return Arrays.asList(sorted);
    }

    private static TimeSpan span(List<ListedRow> rows) {
        TimeSpan span = TimeSpan.ALWAYS;
        for (ListedRow row : rows) {
            span = span.and(row.row().standing().holds());
        }
        return span;
    }

    /** Drives per standing; every standing is there. */
    static Map<Standing, Integer> counts(List<ListedRow> rows) {
        Map<Standing, Integer> counts = new EnumMap<>(Standing.class);
        for (Standing standing : Standing.values()) {
            counts.put(standing, 0);
        }
        rows.forEach(row -> counts.merge(row.standing(), 1, Integer::sum));
        return counts;
    }
}
