package tracksoak.bench.standin.learn;

import java.util.OptionalDouble;
import java.util.function.BiPredicate;
import tracksoak.bench.recording.WaveFormat;

/** What is looked at of a recorder: what people call it, and when two patterns have it in common. */
@SuppressWarnings("ImmutableEnumChecker") // its functions hold no state
public enum Habit {
    FILES("Files written at the same time", (a, b) -> a.streams() == b.streams()),
    TRACKS(
            "Tracks",
            (a, b) -> a.tracks().equals(b.tracks())
                    && a.format().map(WaveFormat::mono).equals(b.format().map(WaveFormat::mono))),
    DEMAND("Demand", (a, b) -> near(a.bytesPerSecond(), b.bytesPerSecond(), 0.02, 0)),
    CHUNK("Chunk", (a, b) -> a.chunkBytes().equals(b.chunkBytes())),
    ARRIVAL("Chunks fall due", (a, b) -> a.arrival().equals(b.arrival())),
    ORDER("Order of files", (a, b) -> a.sameOrder().equals(b.sameOrder())),
    WRITERS("Writes under way at once", (a, b) -> a.writers() == b.writers()),
    FLUSH("Flush", (a, b) -> near(a.flushS(), b.flushS())),
    HEADERS("Headers written again", (a, b) -> near(a.headerS(), b.headerS())),
    TABLES("Tables and folders", (a, b) -> near(a.folderS(), b.folderS())),
    SPACE("Space in advance", (a, b) -> a.advanceBytes().equals(b.advanceBytes())),
    LARGEST("Largest file", (a, b) -> a.fileLimitBytes().equals(b.fileLimitBytes())),
    STOP("At stop", (a, b) -> a.headersAtStop() > 0 == b.headersAtStop() > 0),
    FILE_SYSTEM("File system", (a, b) -> a.fileSystem().equals(b.fileSystem()) && a.clusterBytes() == b.clusterBytes());

    private static final double ALIKE = 0.1;
    private static final double ALIKE_S = 0.5;

    private final String words;
    private final BiPredicate<Pattern, Pattern> same;

    Habit(String words, BiPredicate<Pattern, Pattern> same) {
        this.words = words;
        this.same = same;
    }

    /** For people. */
    public String words() {
        return words;
    }

    boolean same(Pattern one, Pattern other) {
        return same.test(one, other);
    }

    private static boolean near(OptionalDouble one, OptionalDouble other) {
        return one.isPresent() == other.isPresent()
                && (one.orElse(0) == 0) == (other.orElse(0) == 0)
                && near(one.orElse(0), other.orElse(0), ALIKE, ALIKE_S);
    }

    private static boolean near(double one, double other, double part, double least) {
        return Math.abs(one - other) <= Math.max(least, part * Math.max(one, other));
    }
}
