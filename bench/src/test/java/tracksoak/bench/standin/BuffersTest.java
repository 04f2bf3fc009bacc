package tracksoak.bench.standin;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class BuffersTest {

    private static final int SEED = 11;

    @Test
    void lendsNoBufferTwiceAndNeverMoreThanItMay() {
        SplittableRandom random = new SplittableRandom(SEED);
        Buffers buffers = new Buffers();
        List<ByteBuffer> lent = new ArrayList<>();
        Set<ByteBuffer> out = Collections.newSetFromMap(new IdentityHashMap<>());
        for (int i = 0; i < 20_000; i++) {
            if (random.nextInt(3) > 0) {
                ByteBuffer one = buffers.lend(1 + random.nextInt(1 << random.nextInt(1, 22)));
                if (one != null) {
                    assertThat(out.add(one))
                            .as("lent once, seed %s, step %s", SEED, i)
                            .isTrue();
                    lent.add(one);
                }
            } else if (!lent.isEmpty()) {
                ByteBuffer one = lent.remove(random.nextInt(lent.size()));
                out.remove(one);
                buffers.giveBack(one);
            }
            assertThat(lent.stream().mapToLong(ByteBuffer::capacity).sum()).isLessThanOrEqualTo(Buffers.MOST_BYTES);
        }
    }
}
