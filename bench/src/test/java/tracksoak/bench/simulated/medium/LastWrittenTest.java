package tracksoak.bench.simulated.medium;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LastWrittenTest {

    private static final int REAL = 200;
    private static final int WRITES = 3000;

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void isWhatAListOfAllBlocksSays(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        LastWritten kept = new LastWritten();
        int[] plain = new int[REAL];
        Arrays.fill(plain, -1);
        for (int i = 0; i < WRITES; i++) {
            int at = random.nextInt(REAL);
            int blocks = 1 + random.nextInt(Math.min(40, REAL - at));
            int block = at + REAL * random.nextInt(3);
            kept.wrote(at, blocks, block);
            for (int j = 0; j < blocks; j++) {
                plain[at + j] = block + j;
            }
            for (int j = 0; j < REAL; j++) {
                assertThat(kept.at(j))
                        .as("block %s after %s writes, seed %s", j, i + 1, seed)
                        .isEqualTo(plain[j]);
            }
        }
    }
}
