package tracksoak.bench.simulated.medium;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The extents against a plain array with one entry per block. */
class ExtentsTest {

    private static final int BLOCKS = 400;

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void holdWhatWasWrittenLast(long seed) {
        System.out.println("extents: seed " + seed);
        SplittableRandom random = new SplittableRandom(seed);
        Extents extents = new Extents();
        long[] expected = new long[BLOCKS];
        for (int write = 1; write <= 2000; write++) {
            int at = random.nextInt(BLOCKS);
            int blocks = 1 + random.nextInt(Math.min(40, BLOCKS - at));
            boolean raw = random.nextInt(10) == 0;
            if (raw) {
                extents.raw(at, new byte[] {(byte) write});
                expected[at] = -(byte) write - 1000L;
            } else {
                int stream = random.nextInt(3);
                long from = random.nextInt(4) == 0 ? at : random.nextInt(1000);
                extents.stamped(at, blocks, 9, stream, 0, from);
                for (int i = 0; i < blocks; i++) {
                    expected[at + i] = 1 + stream * 10_000L + from + i;
                }
            }
            for (int probe = 0; probe < 20; probe++) {
                int block = random.nextInt(BLOCKS);
                assertThat(value(extents, block)).isEqualTo(expected[block]);
            }
        }
        for (int block = 0; block < BLOCKS; block++) {
            assertThat(value(extents, block)).isEqualTo(expected[block]);
        }
    }

    private static long value(Extents extents, int block) {
        int entry = extents.find(block);
        if (entry < 0) {
            return 0;
        }
        Extents.Source source = extents.source(entry);
        byte[] raw = source.raw;
        return raw != null ? -raw[0] - 1000L : 1 + source.stream * 10_000L + extents.number(entry, block);
    }
}
