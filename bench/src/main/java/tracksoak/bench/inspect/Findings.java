package tracksoak.bench.inspect;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;
import tracksoak.report.record.facts.inspection.Finding;
import tracksoak.report.record.facts.inspection.FindingKind;

/** Collects what is found and puts together what is alike on several tracks. One thread. */
final class Findings {

    private static final int LONGEST_NAME = 200;

    /** What makes findings alike. */
    private record Likeness(
            FindingKind kind,
            Finding.Weight weight,
            String take,
            @Nullable Long atSample,
            @Nullable Double samples,
            String detail) {}

    private record Alike(Found one, List<String> where, int all) {}

    private final Map<Likeness, Alike> alike = new LinkedHashMap<>();

    /**
     * Takes findings of a take.
     *
     * @param take its name
     * @param tracks how many tracks it has
     */
    void add(String take, int tracks, List<Found> found) {
        for (Found one : found) {
            // files are named one by one, tracks together
            String detail = perFile(one.kind()) ? one.detail() : "";
            Double samples = one.samples();
            Likeness key = new Likeness(
                    one.kind(),
                    one.weight(),
                    take,
                    one.atSample(),
                    samples == null || one.exact() ? samples : (Double) (double) Math.round(one.ms()),
                    one.kind() == FindingKind.UNCERTAIN
                                    || one.kind() == FindingKind.UNEQUAL_LENGTH
                                    || one.kind() == FindingKind.UNEQUAL_START
                            ? one.detail()
                            : detail);
            Alike with = alike.computeIfAbsent(key, none -> new Alike(one, new ArrayList<>(), tracks));
            if (!with.where().contains(one.where())) {
                with.where().add(one.where());
            }
        }
    }

    private static boolean perFile(FindingKind kind) {
        return kind == FindingKind.HEADER_CUT
                || kind == FindingKind.TABLES
                || kind == FindingKind.UNREADABLE
                || kind == FindingKind.SHARED_PLACE
                || kind == FindingKind.NOT_LOOKED_AT;
    }

    /** All of them, the weightiest first, then in the order of time. */
    List<Finding> all() {
        return alike.entrySet().stream()
                .map(entry -> finding(entry.getKey(), entry.getValue()))
                .sorted(Comparator.comparing(Finding::weight)
                        .thenComparing(finding -> Objects.requireNonNullElse(finding.atS(), -1.0))
                        .thenComparing(Finding::kind))
                .toList();
    }

    private static Finding finding(Likeness key, Alike alike) {
        Found one = alike.one();
        return new Finding(
                key.kind(),
                key.weight(),
                kept(key.take()),
                alike.where().stream()
                        .limit(Finding.MOST_NAMED)
                        .map(Findings::kept)
                        .toList(),
                alike.where().size(),
                one.atS() == null ? null : Math.max(0, one.atS()),
                one.atSample(),
                one.samples(),
                one.exact(),
                FindingText.of(one, alike.where(), alike.all()));
    }

    /** A name as a record keeps it. */
    static String kept(String name) {
        String kept = Inert.kept(name);
        return kept == null ? "" : kept.length() > LONGEST_NAME ? kept.substring(0, LONGEST_NAME) : kept;
    }
}
