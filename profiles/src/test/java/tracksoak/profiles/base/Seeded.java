package tracksoak.profiles.base;

import java.util.Random;
import java.util.SplittableRandom;

/**
 * Random numbers for tests that go through a list of seeds. The first ones of {@link Random} are nearly the same for neighbouring seeds, so a
 * whole list of them would try one place again and again; here they have nothing to do with each other. Stateless.
 */
public final class Seeded {

    private Seeded() {}

    /** Numbers that follow from the seed. */
    public static Random random(long seed) {
        return new Random(new SplittableRandom(seed).nextLong());
    }
}
