package tracksoak.bench.simulated;

import java.io.IOException;

/** A {@link Behaviour} at work on one drive. Holds the state of the trait; used by one thread; allocates little. */
public interface Effect {

    /**
     * Shapes the time of a call, or refuses it.
     *
     * @throws IOException if the drive refuses the call; the time taken so far passes all the same
     */
    default void shape(Call call) throws IOException {}

    /** Whether {@link #wrote} and {@link #look} do anything, so that drives that tell the truth skip them. */
    default boolean lies() {
        return false;
    }

    /**
     * Hears that the drive took {@code blocks} blocks of 4 KiB at device block {@code first}, a part of one write.
     *
     * @param done blocks of the same write before these
     * @param whole blocks of the whole write
     */
    default void wrote(int first, int blocks, int done, int whole) {}

    /** Changes what a block read back shows. */
    default void look(Seen seen) {}

    /** Hears that the drive was unplugged, without warning, and plugged in again. */
    default void pluggedInAgain() {}

    /** Whether device block {@code block} was lost when the drive was unplugged and has not been written since. */
    default boolean forgot(int block) {
        return false;
    }
}
