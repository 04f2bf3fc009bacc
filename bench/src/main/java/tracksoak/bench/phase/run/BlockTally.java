package tracksoak.bench.phase.run;

import java.util.ArrayList;
import java.util.List;
import tracksoak.bench.stream.BlockState;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.ReadBackFacts.Origin;

/** Counts blocks by what they turned out to be, and keeps the first bad ones as examples. Not thread-safe. */
final class BlockTally {

    private static final int MOST_EXAMPLES = 100;

    private final long blocks;
    private final List<String> examples = new ArrayList<>();
    private long good;
    private long missing;
    private long stale;
    private long misplaced;
    private long flipped;
    private long unreadable;

    /** Expects so many blocks in all. */
    BlockTally(long blocks) {
        this.blocks = blocks;
    }

    /** Blocks expected in all. */
    long blocks() {
        return blocks;
    }

    void count(BlockState state) {
        switch (state) {
            case GOOD -> good++;
            case MISSING -> missing++;
            case STALE -> stale++;
            case MISPLACED -> misplaced++;
            case FLIPPED -> flipped++;
        }
    }

    void countUnreadable(long howMany) {
        unreadable += howMany;
    }

    boolean wantsExamples() {
        return examples.size() < MOST_EXAMPLES;
    }

    void example(String sentence) {
        examples.add(sentence);
    }

    ReadBackFacts facts(Origin origin) {
        long seen = good + missing + stale + misplaced + flipped + unreadable;
        return new ReadBackFacts(
                blocks, good, missing, stale, misplaced, flipped, unreadable, blocks - seen, origin, examples);
    }
}
