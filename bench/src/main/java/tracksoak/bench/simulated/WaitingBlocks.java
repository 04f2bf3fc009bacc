package tracksoak.bench.simulated;

import java.util.Arrays;
import java.util.BitSet;

/** Device blocks of 4 KiB that wait in a drive's volatile memory, oldest first. Grows only while it fills for the first time. */
final class WaitingBlocks {

    private final BitSet lost = new BitSet();
    private int[] block = new int[1024];
    private int head;
    private int size;

    /** Notes blocks that were just written. */
    void wrote(int first, int blocks) {
        lost.clear(first, first + blocks);
        for (int i = 0; i < blocks; i++) {
            if (size == block.length) {
                grow();
            }
            block[(head + size++) % block.length] = first + i;
        }
    }

    /** Lets the oldest go to the medium until at most {@code bytes} wait. */
    void keep(long bytes) {
        long most = bytes / SimulatedDrive.BLOCK;
        while (size > most) {
            head = (head + 1) % block.length;
            size--;
        }
    }

    /** Power is gone: what waited is lost. */
    void lose() {
        while (size > 0) {
            lost.set(block[head]);
            head = (head + 1) % block.length;
            size--;
        }
    }

    /** Whether a block was lost and has not been written since. */
    boolean lost(int deviceBlock) {
        return lost.get(deviceBlock);
    }

    private void grow() {
        int[] larger = Arrays.copyOf(Arrays.copyOfRange(block, head, block.length), block.length * 2);
        System.arraycopy(block, 0, larger, block.length - head, head);
        block = larger;
        head = 0;
    }
}
