package tracksoak.bench.stream;

import java.nio.ByteBuffer;
import java.util.concurrent.TimeUnit;
import java.util.zip.CRC32C;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** Stamping and verifying a 64 KiB chunk beside CRC-32C alone over the same bytes; each at least 0.85 of it. */
@State(Scope.Thread)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class StampBenchmark {

    private static final int CHUNK = 1 << 16;
    private static final long RUN = 0x0123_4567_89ab_cdefL;

    private final ChunkStamper stamper = new ChunkStamper(RUN, 42, true, CHUNK, 4096);
    private final BlockChecker checker = new BlockChecker(RUN, true);
    private final CRC32C crc = new CRC32C();
    private final ByteBuffer sealed = new ChunkStamper(RUN, 42, true, CHUNK, 4096).stamp(1, 1, 0, CHUNK);
    private long block;

    /** The plain loop: the checksum of the chunk, nothing else. */
    @Benchmark
    public long crcAlone() {
        crc.reset();
        crc.update(sealed.position(0).limit(CHUNK));
        return crc.getValue();
    }

    /** What the recorder does to a chunk before it writes it. */
    @Benchmark
    public ByteBuffer stamp() {
        block += CHUNK / Stamp.BLOCK;
        return stamper.stamp(1, 1, block, CHUNK);
    }

    /** What the read-back does to a chunk. */
    @Benchmark
    public int verify() {
        int good = 0;
        for (int at = 0; at < CHUNK; at += Stamp.BLOCK) {
            good += checker.check(sealed, at, 1, 1, at / Stamp.BLOCK) == BlockState.GOOD ? 1 : 0;
        }
        if (good != CHUNK / Stamp.BLOCK) {
            throw new IllegalStateException("a sound chunk was called bad");
        }
        return good;
    }
}
