package tracksoak.report.verdict;

import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ReadBackFacts;

/**
 * The part of the drive that a run has written to its whole free space and read back.
 *
 * @param bytes read back as written
 * @param ofBytes size of the drive, or of its file system where that is not known; null if neither is
 */
record Covered(long bytes, @Nullable Long ofBytes) {

    /** What the read-back right after the fill has shown; null unless the whole free space was to be filled. */
    static @Nullable Covered of(JudgedRun run) {
        if (!run.record.plan().wholeSpace()) {
            return null;
        }
        Long size = run.record.drive().sizeBytes();
        Long whole = size == null ? run.record.drive().fileSystemBytes() : size;
        boolean filled = false;
        for (PhaseFacts phase : run.record.phases()) {
            ReadBackFacts back = phase.readBack();
            if (filled && phase.kind() == PhaseKind.READ_BACK && back != null) {
                return new Covered(back.good() * ReadBackFacts.BLOCK_BYTES, whole);
            }
            filled |= phase.kind() == PhaseKind.FILL;
        }
        return new Covered(0, whole);
    }

    /** {@code 60.6 GB, 94.7 % of the drive's 64 GB}. */
    String words() {
        return Units.bytes(bytes)
                + (ofBytes == null || ofBytes <= 0
                        ? ""
                        : ", " + Units.percent(Math.min(1, bytes / (double) ofBytes)) + " of the drive's "
                                + Units.bytes(ofBytes));
    }
}
