package tracksoak.report.record.sign;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tracksoak.report.record.facts.RecordException;

/** Keys with which everybody can sign: worked out here by adding points of the curve, and refused. */
class SmallOrderTest {

    private static final BigInteger P = BigInteger.TWO.pow(255).subtract(BigInteger.valueOf(19));
    private static final BigInteger D = BigInteger.valueOf(-121_665)
            .multiply(BigInteger.valueOf(121_666).modInverse(P))
            .mod(P);

    private record Point(BigInteger x, BigInteger y) {

        /** RFC 8032 §5.1.4, in affine coordinates. */
        Point plus(Point other) {
            BigInteger product = D.multiply(x)
                    .multiply(other.x)
                    .multiply(y)
                    .multiply(other.y)
                    .mod(P);
            BigInteger newX = x.multiply(other.y)
                    .add(y.multiply(other.x))
                    .multiply(BigInteger.ONE.add(product).modInverse(P));
            BigInteger newY = y.multiply(other.y)
                    .add(x.multiply(other.x))
                    .multiply(BigInteger.ONE.subtract(product).modInverse(P));
            return new Point(newX.mod(P), newY.mod(P));
        }

        byte[] encoded(BigInteger beyond) {
            byte[] big = y.add(beyond).toByteArray();
            byte[] key = new byte[32];
            for (int i = 0; i < Math.min(32, big.length); i++) {
                key[i] = big[big.length - 1 - i];
            }
            key[31] |= (byte) (x.testBit(0) ? 0x80 : 0);
            return key;
        }
    }

    /** All eight points: the multiples of one of order 8. */
    private static List<Point> points() {
        BigInteger y = new BigInteger(1, reversed("26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc05"));
        BigInteger square = y.pow(2)
                .subtract(BigInteger.ONE)
                .multiply(D.multiply(y.pow(2)).add(BigInteger.ONE).modInverse(P))
                .mod(P);
        BigInteger x = square.modPow(P.add(BigInteger.valueOf(3)).shiftRight(3), P);
        if (!x.pow(2).mod(P).equals(square)) {
            x = x.multiply(BigInteger.TWO.modPow(P.subtract(BigInteger.ONE).shiftRight(2), P))
                    .mod(P);
        }
        Point eighth = new Point(x, y);
        List<Point> points = new ArrayList<>(List.of(eighth));
        while (points.size() < 8) {
            points.add(points.get(points.size() - 1).plus(eighth));
        }
        return points;
    }

    private static byte[] reversed(String hex) {
        byte[] little = HexFormat.of().parseHex(hex);
        byte[] big = new byte[little.length];
        for (int i = 0; i < big.length; i++) {
            big[i] = little[little.length - 1 - i];
        }
        return big;
    }

    static List<String> keys() {
        List<String> keys = new ArrayList<>();
        for (Point point : points()) {
            keys.add(HexFormat.of().formatHex(point.encoded(BigInteger.ZERO)));
            if (point.y().compareTo(BigInteger.valueOf(19)) < 0) {
                keys.add(HexFormat.of().formatHex(point.encoded(P)));
            }
            if (point.x().signum() == 0) {
                byte[] signed = point.encoded(BigInteger.ZERO);
                signed[31] |= (byte) 0x80;
                keys.add(HexFormat.of().formatHex(signed));
            }
        }
        return keys;
    }

    @Test
    void theyAreEightAndTheLastIsNeutral() {
        assertThat(points()).doesNotHaveDuplicates().hasSize(8);
        assertThat(points().get(7)).isEqualTo(new Point(BigInteger.ZERO, BigInteger.ONE));
        assertThat(keys())
                .contains(
                        "0100000000000000000000000000000000000000000000000000000000000000",
                        "ecffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f",
                        "0000000000000000000000000000000000000000000000000000000000000000",
                        "0000000000000000000000000000000000000000000000000000000000000080",
                        "26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc05",
                        "26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc85",
                        "c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac037a",
                        "c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac03fa");
    }

    @ParameterizedTest
    @MethodSource("keys")
    void noneIsAKey(String hex) {
        byte[] raw = HexFormat.of().parseHex(hex);
        assertThatThrownBy(() -> new VerifyKey(VerifyKey.encode(raw)))
                .isInstanceOf(RecordException.class)
                .hasMessageContaining("anybody can sign");
    }

    @Test
    void honestKeysAreNone() {
        for (int i = 0; i < 50; i++) {
            TesterKey key = TesterKey.create("Ada");
            byte[] signature = key.sign(new byte[] {1, 2, 3});
            assertThat(key.verifyKey().holds(new byte[] {1, 2, 3}, signature)).isTrue();
            assertThat(VerifyKey.signature(VerifyKey.encode(signature))).isEqualTo(signature);
        }
    }

    @Test
    void aSignatureMovedByTheOrderOfTheGroupDoesNotHold() {
        TesterKey key = TesterKey.create("Ada");
        byte[] signature = key.sign(new byte[] {1});
        BigInteger order = BigInteger.TWO.pow(252).add(new BigInteger("27742317777372353535851937790883648493"));
        byte[] little = Arrays.copyOfRange(signature, 32, 64);
        BigInteger s = new BigInteger(1, reversed(HexFormat.of().formatHex(little))).add(order);
        byte[] moved = signature.clone();
        byte[] big = s.toByteArray();
        for (int i = 0; i < 32; i++) {
            moved[32 + i] = i < big.length ? big[big.length - 1 - i] : 0;
        }
        assertThat(key.verifyKey().holds(new byte[] {1}, moved)).isFalse();
    }
}
