package tracksoak.bench.stream;

/**
 * Joins the CRC-32C of two pieces to that of both in a row, for a second piece of fixed length. A checksum is linear:
 * behind n more bytes the first one's becomes a fixed linear image of itself, which is looked up byte by byte (the
 * arithmetic of cyclic codes over GF(2); polynomial of RFC 3720 in its reflected form).
 */
final class ChecksumJoin {

    private static final int POLYNOMIAL = 0x82F63B78;

    private final int[] image = new int[4 * 256];

    /** Joins to second pieces of {@code bytes} bytes. */
    ChecksumJoin(int bytes) {
        int[] ofBit = new int[32];
        for (int bit = 0; bit < 32; bit++) {
            int state = 1 << bit;
            for (int step = 0; step < bytes * 8; step++) {
                state = (state >>> 1) ^ ((state & 1) == 0 ? 0 : POLYNOMIAL);
            }
            ofBit[bit] = state;
        }
        for (int place = 0; place < 4; place++) {
            for (int value = 0; value < 256; value++) {
                int sum = 0;
                for (int bit = 0; bit < 8; bit++) {
                    sum ^= (value >>> bit & 1) == 0 ? 0 : ofBit[place * 8 + bit];
                }
                image[place * 256 + value] = sum;
            }
        }
    }

    /** CRC-32C of both pieces in a row. */
    int join(int first, int second) {
        return image[first & 0xFF]
                ^ image[256 + (first >>> 8 & 0xFF)]
                ^ image[512 + (first >>> 16 & 0xFF)]
                ^ image[768 + (first >>> 24)]
                ^ second;
    }
}
