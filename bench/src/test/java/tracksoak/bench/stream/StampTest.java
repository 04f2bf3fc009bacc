package tracksoak.bench.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.zip.CRC32C;
import org.junit.jupiter.api.Test;

class StampTest {

    private static final long RUN = 0x1234_5678_9abc_def0L;

    @Test
    void theChecksumIsTheCrc32cOfRfc3720() {
        // RFC 3720 appendix B.4; "123456789" is the usual check value of the polynomial
        assertThat(crc("123456789".getBytes(StandardCharsets.US_ASCII))).isEqualTo(0xE3069283);
        assertThat(crc(new byte[32])).isEqualTo(0x8A9136AA);
        byte[] ones = new byte[32];
        java.util.Arrays.fill(ones, (byte) 0xFF);
        assertThat(crc(ones)).isEqualTo(0x62A8AB43);
        byte[] counting = new byte[32];
        for (int i = 0; i < 32; i++) {
            counting[i] = (byte) i;
        }
        assertThat(crc(counting)).isEqualTo(0x46DD794E);
    }

    @Test
    void everyBlockOfAChunkChecksAndNoTwoAreAlike() {
        ByteBuffer chunk = chunk(3, 1, 100);
        BlockChecker checker = new BlockChecker(RUN, true);
        for (int block = 0; block < 16; block++) {
            assertThat(checker.check(chunk, block * Stamp.BLOCK, 3, 1, 100 + block))
                    .isEqualTo(BlockState.GOOD);
        }
        byte[] first = new byte[Stamp.BLOCK];
        byte[] second = new byte[Stamp.BLOCK];
        chunk.clear();
        chunk.get(0, first).get(Stamp.BLOCK, second);
        assertThat(first).isNotEqualTo(second);
    }

    @Test
    void whatCanHappenToABlockIsToldApart() {
        BlockChecker checker = new BlockChecker(RUN, true);
        ByteBuffer chunk = chunk(3, 1, 100);
        assertThat(checker.check(chunk, 0, 3, 1, 101)).isEqualTo(BlockState.MISPLACED);
        assertThat(checker.check(chunk, 0, 4, 1, 100)).isEqualTo(BlockState.MISPLACED);
        assertThat(checker.check(chunk, 0, 3, 2, 100)).as("an earlier pass").isEqualTo(BlockState.STALE);
        assertThat(checker.check(chunk, 0, 3, 0, 100)).as("a later pass").isEqualTo(BlockState.MISPLACED);
        assertThat(new BlockChecker(RUN + 1, true).check(chunk, 0, 3, 1, 100)).isEqualTo(BlockState.STALE);
        for (int at = 0; at < Stamp.BLOCK; at += 97) {
            flip(chunk, at);
            assertThat(checker.check(chunk, 0, 3, 1, 100))
                    .as("bit at byte %s", at)
                    .isEqualTo(BlockState.FLIPPED);
            flip(chunk, at);
        }
        for (int at = 0; at < Stamp.BLOCK; at++) {
            chunk.put(at, (byte) 0);
        }
        assertThat(checker.check(chunk, 0, 3, 1, 100)).isEqualTo(BlockState.MISSING);
        for (int at = 0; at < Stamp.BLOCK; at++) {
            chunk.put(at, (byte) 0xFF);
        }
        assertThat(checker.check(chunk, 0, 3, 1, 100)).isEqualTo(BlockState.MISSING);
    }

    @Test
    void everyBitOfABlockDecides() {
        ByteBuffer chunk = chunk(3, 1, 100);
        BlockChecker checker = new BlockChecker(RUN, true);
        for (int bit = 0; bit < 8 * Stamp.BLOCK; bit++) {
            int at = Stamp.BLOCK + bit / 8;
            byte was = chunk.clear().get(at);
            chunk.put(at, (byte) (was ^ 1 << bit % 8));
            assertThat(checker.check(chunk, Stamp.BLOCK, 3, 1, 101))
                    .as("bit %s", bit)
                    .isEqualTo(BlockState.FLIPPED);
            chunk.clear().put(at, was);
        }
        assertThat(checker.check(chunk, Stamp.BLOCK, 3, 1, 101)).isEqualTo(BlockState.GOOD);
    }

    /** By the definition of the stamp: the CRC of a copy whose field is 0, whatever stands in the field of the block itself. */
    @Test
    void theFieldCountsAsZeroAndNothingIsChanged() {
        ByteBuffer chunk = chunk(3, 1, 100);
        for (int field : new int[] {0, 1, -1, 0x80000000, 0x1234_5678}) {
            byte[] block = new byte[Stamp.BLOCK];
            chunk.clear().putInt(Stamp.BLOCK, field).get(Stamp.BLOCK, block);
            byte[] copy = block.clone();
            java.util.Arrays.fill(copy, 0, Integer.BYTES, (byte) 0);
            assertThat(Stamp.crcOf(chunk, Stamp.BLOCK, new CRC32C())).isEqualTo(crc(copy));
            byte[] after = new byte[Stamp.BLOCK];
            chunk.clear().get(Stamp.BLOCK, after);
            assertThat(after).isEqualTo(block);
        }
    }

    @Test
    void aTornBlockIsDamaged() {
        ByteBuffer fresh = chunk(3, 1, 100);
        ByteBuffer torn = chunk(3, 1, 7);
        for (int at = 0; at < 512; at++) {
            torn.put(at, fresh.get(at));
        }
        torn.put(600, (byte) ~torn.get(600));
        assertThat(new BlockChecker(RUN, true).check(torn, 0, 3, 1, 100)).isEqualTo(BlockState.FLIPPED);
    }

    @Test
    void patternDataDoesNotShrink() throws Exception {
        byte[] data = new byte[1 << 16];
        chunk(0, 1, 0).get(0, data);
        java.util.zip.Deflater deflater = new java.util.zip.Deflater(9);
        deflater.setInput(data);
        deflater.finish();
        int length = deflater.deflate(new byte[2 << 16]);
        deflater.end();
        assertThat(length).as("bytes left of 65,536 after the JDK's deflater").isGreaterThan(65_000);
    }

    private static ByteBuffer chunk(int stream, int pass, long first) {
        return new ChunkStamper(RUN, 42, true, 1 << 16, 4096).stamp(stream, pass, first, 1 << 16);
    }

    private static void flip(ByteBuffer chunk, int at) {
        chunk.clear();
        chunk.put(at, (byte) (chunk.get(at) ^ 1));
    }

    private static int crc(byte[] bytes) {
        CRC32C crc = new CRC32C();
        crc.update(bytes);
        return (int) crc.getValue();
    }
}
