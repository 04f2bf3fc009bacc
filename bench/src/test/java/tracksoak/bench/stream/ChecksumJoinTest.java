package tracksoak.bench.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import java.util.zip.CRC32C;
import org.junit.jupiter.api.Test;

class ChecksumJoinTest {

    @Test
    void theJoinIsTheChecksumOfBothInARow() {
        // against the JDK's own CRC-32C, which StampTest holds to RFC 3720
        Random random = new Random(5);
        for (int length : new int[] {1, 7, 32, 4064}) {
            ChecksumJoin join = new ChecksumJoin(length);
            for (int i = 0; i < 200; i++) {
                byte[] both = new byte[1 + random.nextInt(64) + length];
                random.nextBytes(both);
                int first = both.length - length;
                assertThat(join.join(crc(both, 0, first), crc(both, first, length)))
                        .as("seed 5, length %s, case %s", length, i)
                        .isEqualTo(crc(both, 0, both.length));
            }
        }
    }

    private static int crc(byte[] bytes, int from, int length) {
        CRC32C crc = new CRC32C();
        crc.update(bytes, from, length);
        return (int) crc.getValue();
    }
}
