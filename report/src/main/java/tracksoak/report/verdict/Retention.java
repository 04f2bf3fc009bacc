package tracksoak.report.verdict;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.KeepsakeFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ReadBackFacts;

/**
 * What the drive has kept of what earlier runs left on it. A block that faded is an integrity failure like any other: a
 * drive that carries the show home must still hold it when it is copied. Files that are gone are none, as people delete
 * and format; one that is shorter than it was left leaves it open who cut it. Where the list of the files was found beside them and not on this computer, anybody can have changed it:
 * only blocks whose own checksum or reading fails count then.
 */
public final class Retention {

    private static final int MOST_NAMED = 3;

    private Retention() {}

    /** Phases that read a keepsake. */
    static Stream<PhaseFacts> phases(List<PhaseFacts> all) {
        return all.stream().filter(phase -> phase.kind() == PhaseKind.KEEPSAKE && phase.keepsake() != null);
    }

    /** Blocks of a keepsake that faded; 0 for other phases. */
    public static long faded(PhaseFacts phase) {
        KeepsakeFacts keepsake = phase.keepsake();
        ReadBackFacts found = phase.readBack();
        if (keepsake == null || found == null) {
            return 0;
        }
        return keepsake.known() ? found.bad() : found.flipped() + found.unreadable();
    }

    /** The sentence of the first keepsake that faded; empty if none did. */
    static Optional<String> missed(List<PhaseFacts> all) {
        return phases(all).filter(phase -> faded(phase) > 0).findFirst().map(Retention::sentence);
    }

    /** The sentence of the first keepsake of this computer's list that is cut short and else as written; empty if none is. */
    static Optional<String> cutShort(List<PhaseFacts> all) {
        return phases(all)
                .filter(phase -> Objects.requireNonNull(phase.keepsake()).known() && cutOff(phase) > 0)
                .findFirst()
                .map(Retention::sentence);
    }

    /** Blocks that its files no longer reach to: a phase that came to its end has read all others. */
    private static long cutOff(PhaseFacts phase) {
        ReadBackFacts found = phase.readBack();
        return found == null || !phase.complete() ? 0 : found.unread();
    }

    /** What became of one keepsake, in a plain sentence. */
    public static String sentence(PhaseFacts phase) {
        KeepsakeFacts keepsake = Objects.requireNonNull(phase.keepsake());
        ReadBackFacts found = phase.readBack();
        String left = "what the run of " + keepsake.writtenAt().substring(0, 10) + " left on it "
                + Units.days(keepsake.days()) + " ago";
        if (found == null) {
            return "Retention is not tested: " + left + " (" + Units.bytes(keepsake.bytes())
                    + ") is not there any more; it was deleted, or the drive formatted.";
        }
        String gone = keepsake.filesGone() == 0
                ? ""
                : " " + keepsake.filesGone() + " of " + keepsake.files()
                        + " files are not there any more; that alone is no fault of the drive's.";
        long faded = faded(phase);
        if (faded > 0) {
            return "The drive has lost part of " + left + ": " + faded + " of " + found.blocks() + " blocks ("
                    + kinds(found) + "). Never leave a show on it." + gone;
        }
        if (cutOff(phase) > 0) {
            return "Of " + left + ", files are shorter than they were left: " + found.unread() + " of " + found.blocks()
                    + " blocks are cut off ("
                    + found.examples().stream().limit(MOST_NAMED).collect(Collectors.joining("; "))
                    + "), by somebody or by the drive, which"
                    + " cannot be told apart. The other " + Units.bytes(found.good() * ReadBackFacts.BLOCK_BYTES)
                    + " are as written. To go on without that keepsake: tracksoak clear PATH names it." + gone;
        }
        return "Of " + left + ", "
                + Units.bytes((found.blocks() - found.unread() - found.bad()) * ReadBackFacts.BLOCK_BYTES)
                + " were read and are as written" + (found.unread() > 0 ? "; the rest was not read." : ".") + gone
                + (keepsake.known()
                        ? ""
                        : " This computer has no list of it, so only what lies there could be checked.");
    }

    private static String kinds(ReadBackFacts found) {
        StringBuilder words = new StringBuilder();
        add(words, found.flipped(), "changed");
        add(words, found.unreadable(), "unreadable");
        add(words, found.missing(), "missing");
        add(words, found.stale(), "stale");
        add(words, found.misplaced(), "overwritten");
        return words.append(Unread.words(found.good(), found.unread())).toString();
    }

    private static void add(StringBuilder words, long count, @Nullable String what) {
        if (count > 0) {
            words.append(words.isEmpty() ? "" : ", ").append(count).append(' ').append(what);
        }
    }
}
