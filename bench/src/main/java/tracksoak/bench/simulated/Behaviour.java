package tracksoak.bench.simulated;

import java.util.SplittableRandom;

/**
 * One trait of a simulated drive, as data. A {@link DriveModel} lists its traits in the order in which they act: what
 * sets the base time of a call first, what stretches it after that, what adds to it last.
 */
public interface Behaviour {

    /** One line for people: what the trait does. */
    String says();

    /**
     * The trait at work on one drive that has just been plugged in.
     *
     * @param random the trait's own source of chance, seeded by the model
     */
    Effect start(SplittableRandom random);
}
