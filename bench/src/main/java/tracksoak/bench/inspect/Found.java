package tracksoak.bench.inspect;

import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.inspection.Finding.Weight;
import tracksoak.report.record.facts.inspection.FindingKind;

/**
 * Something found on one track or file, before findings that are alike are put together.
 *
 * @param where name of the track or file
 * @param atS where in the take it begins, in s; null where it has no place
 * @param atSample the same in samples; null where it has no place
 * @param samples how long it is, in samples; null where it has no length
 * @param ms the same in ms; 0 where it has none
 * @param detail what the sentence needs besides
 */
record Found(
        FindingKind kind,
        Weight weight,
        String where,
        @Nullable Double atS,
        @Nullable Long atSample,
        @Nullable Double samples,
        double ms,
        boolean exact,
        String detail) {

    /** About a file or track as a whole. */
    static Found whole(FindingKind kind, Weight weight, String where, String detail) {
        return new Found(kind, weight, where, null, null, null, 0, true, detail);
    }

    /** At a sample of a track that begins {@code startS} into the take. */
    static Found at(FindingKind kind, Weight weight, String where, Place place, double samples, boolean exact) {
        return new Found(
                kind,
                weight,
                where,
                place.seconds(),
                place.sample(),
                samples,
                samples * 1000 / place.rate(),
                exact,
                "");
    }
    /** The same with another weight. */
    Found weighing(Weight other) {
        return new Found(kind, other, where, atS, atSample, samples, ms, exact, detail);
    }

    /** The same with what its sentence needs. */
    Found with(String newDetail) {
        return new Found(kind, weight, where, atS, atSample, samples, ms, exact, newDetail);
    }

    /**
     * A place in a track.
     *
     * @param sample from the track's first
     * @param rate samples per second
     * @param startS when the track begins in the take, in s
     */
    record Place(long sample, int rate, double startS) {
        double seconds() {
            return startS + (double) sample / rate;
        }
    }
}
