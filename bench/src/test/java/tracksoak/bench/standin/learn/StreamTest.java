package tracksoak.bench.standin.learn;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import tracksoak.bench.volume.VolumeFile;

class StreamTest {

    private static final int CHUNK = 65_536;
    private static final int FIRST = 28_672;

    /** As seen of a kernel that sends the parts of one write, in two runs of clusters, in the order of its own queues. */
    @Test
    void aChunkWhosePartsComeInAnyOrderIsOneChunk() {
        Stream stream = new Stream(new VolumeFile("1.wav", false, 100L * CHUNK, 100L * CHUNK, List.of(), 0));
        assertThat(stream.write(0, 4096, 0, 50)).isTrue();
        for (int chunk = 0; chunk < 20; chunk++) {
            long at = 4096 + (long) chunk * CHUNK;
            long us = 700_000L * (chunk + 1);
            boolean turned = chunk % 3 > 0;
            part(stream, turned ? at + FIRST : at, turned ? CHUNK - FIRST : FIRST, us);
            part(stream, turned ? at : at + FIRST, turned ? FIRST : CHUNK - FIRST, us + 11);
        }
        stream.gather(List.of());
        assertThat(stream.chunkBytes()).isEqualTo(CHUNK);
        assertThat(stream.regular()).isGreaterThan(0.95);
        assertThat(stream.periodUs()).isBetween(699_900.0, 700_100.0);
        assertThat(stream.rewrites().size()).isZero();
    }

    private static void part(Stream stream, long at, int bytes, long us) {
        assertThat(stream.write(at, bytes, us, us + 100)).isTrue();
    }
}
