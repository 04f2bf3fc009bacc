package tracksoak.report.record.facts;

import java.util.List;

/**
 * What a read-back found, in blocks of 4 KiB.
 *
 * @param blocks blocks that should be there
 * @param good read back as written
 * @param missing zeros, or the file ends early
 * @param stale of another run or an earlier pass
 * @param misplaced another block of this run: the address wrapped
 * @param flipped the checksum does not fit
 * @param unreadable the drive gave an error
 * @param unread not read, because read-back ended first; of a keepsake also what is cut off from its files
 * @param fromDevice whether the device's counters show that the bytes came from the device; UNKNOWN without counters
 * @param examples the first bad blocks, and files of a keepsake that are cut short, at most 100, one sentence each
 */
public record ReadBackFacts(
        long blocks,
        long good,
        long missing,
        long stale,
        long misplaced,
        long flipped,
        long unreadable,
        long unread,
        Origin fromDevice,
        List<String> examples) {

    /** Size of a block, in bytes. */
    public static final int BLOCK_BYTES = 4096;

    /** Where read-back bytes came from. */
    public enum Origin {
        DEVICE,
        HOST_MEMORY,
        UNKNOWN
    }

    public ReadBackFacts {
        examples = List.copyOf(examples);
    }

    /** Blocks that are not as written, without those never read. */
    public long bad() {
        return missing + stale + misplaced + flipped + unreadable;
    }
}
