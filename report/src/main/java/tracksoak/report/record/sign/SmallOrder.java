package tracksoak.report.record.sign;

import java.math.BigInteger;
import java.util.Set;

/**
 * Public keys for which anybody can sign: the points of edwards25519 (RFC 8032 §5.1) whose order divides its cofactor 8. Multiplied by
 * what a signature is checked with they vanish, so one forged signature fits every text, or one in eight. Stateless.
 */
final class SmallOrder {

    private static final int BYTES = 32;
    private static final BigInteger P = BigInteger.TWO.pow(255).subtract(BigInteger.valueOf(19));

    /** The y of such a point; each stands for the one or two points that share it: 1 + 1 + 2 + 4 = 8 in all. */
    private static final Set<BigInteger> Y = Set.of(
            BigInteger.ONE, // the neutral point
            P.subtract(BigInteger.ONE), // order 2
            BigInteger.ZERO, // order 4
            new BigInteger("2707385501144840649318225287225658788936804267575313519463743609750303402022") // order 8
            ,
            P.subtract(new BigInteger("2707385501144840649318225287225658788936804267575313519463743609750303402022")));

    private SmallOrder() {}

    /** Whether a key, also one whose y is written beyond the field, is such a point. */
    static boolean has(byte[] key) {
        byte[] big = new byte[BYTES];
        for (int i = 0; i < BYTES; i++) {
            big[i] = key[BYTES - 1 - i];
        }
        big[0] = (byte) (big[0] & 0x7f); // the highest bit is the sign of x
        return Y.contains(new BigInteger(1, big).mod(P));
    }
}
