package tracksoak.report.record.sign;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.HexFormat;
import java.util.SplittableRandom;
import org.erdtman.jcs.JsonCanonicalizer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.report.record.RecordSchemaTest;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordJson;

/** Canonical JSON against RFC 8785 itself and an implementation of others. */
class CanonicalJsonTest {

    private static String of(String json) {
        return new String(CanonicalJson.of(json.getBytes(UTF_8)), UTF_8);
    }

    /** RFC 8785 §3.2.2 and the bytes of §3.2.4. */
    @Test
    void theSampleOfTheRfcComesOutByteForByte() {
        String sample = """
                {
                  "numbers": [333333333.33333329, 1E30, 4.50,
                              2e-3, 0.000000000000000000000000001],
                  "string": "\\u20ac$\\u000F\\u000aA'\\u0042\\u0022\\u005c\\\\\\"\\/",
                  "literals": [null, true, false]
                }
                """;
        assertThat(HexFormat.of().formatHex(CanonicalJson.of(sample.getBytes(UTF_8))))
                .isEqualTo(
                        "7b226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d2c226e756d62657273223a5b3333333333"
                                + "333333332e333333333333332c31652b33302c342e352c302e3030322c31652d32375d2c22737472696e67223a22"
                                + "e282ac245c75303030665c6e4127425c225c5c5c5c5c222f227d");
    }

    /** RFC 8785 §3.2.3: names sorted by UTF-16 code units, not by code points. */
    @Test
    void namesAreSortedAsTheRfcSortsThem() {
        String sample = """
                {
                  "\\u20ac": "Euro Sign",
                  "\\r": "Carriage Return",
                  "\\ufb33": "Hebrew Letter Dalet With Dagesh",
                  "1": "One",
                  "\\ud83d\\ude00": "Emoji: Grinning Face",
                  "\\u0080": "Control",
                  "\\u00f6": "Latin Small Letter O With Diaeresis"
                }
                """;
        assertThat(of(sample))
                .containsSubsequence(
                        "Carriage Return",
                        "One",
                        "Control",
                        "Latin Small Letter O With Diaeresis",
                        "Euro Sign",
                        "Emoji: Grinning Face",
                        "Hebrew Letter Dalet With Dagesh");
    }

    /** RFC 8785 appendix B: the bits of a double and its text. */
    @ParameterizedTest
    @CsvSource({
        "0000000000000000, 0",
        "8000000000000000, 0",
        "0000000000000001, 5e-324",
        "8000000000000001, -5e-324",
        "7fefffffffffffff, 1.7976931348623157e+308",
        "ffefffffffffffff, -1.7976931348623157e+308",
        "4340000000000000, 9007199254740992",
        "c340000000000000, -9007199254740992",
        "4430000000000000, 295147905179352830000",
        "44b52d02c7e14af5, 9.999999999999997e+22",
        "44b52d02c7e14af6, 1e+23",
        "44b52d02c7e14af7, 1.0000000000000001e+23",
        "444b1ae4d6e2ef4e, 999999999999999700000",
        "444b1ae4d6e2ef4f, 999999999999999900000",
        "444b1ae4d6e2ef50, 1e+21",
        "3eb0c6f7a0b5ed8c, 9.999999999999997e-7",
        "3eb0c6f7a0b5ed8d, 0.000001",
        "41b3de4355555553, 333333333.3333332",
        "41b3de4355555554, 333333333.33333325",
        "41b3de4355555555, 333333333.3333333",
        "41b3de4355555556, 333333333.3333334",
        "41b3de4355555557, 333333333.33333343",
        "becbf647612f3696, -0.0000033333333333333333",
        "43143ff3c1cb0959, 1424953923781206.2"
    })
    void numbersAreWrittenAsTheRfcWritesThem(String bits, String text) {
        double number = Double.longBitsToDouble(Long.parseUnsignedLong(bits, 16));
        assertThat(of("[" + number + "]")).isEqualTo("[" + text + "]");
    }

    /** RFC 8785 appendix D: integers a double cannot hold are strings. */
    @Test
    void noDigitOfALargeIntegerIsLost() {
        assertThat(of("[9007199254740991, 9007199254740993, -9223372036854775808, 18446744073709551616]"))
                .isEqualTo("[9007199254740991,\"9007199254740993\",\"-9223372036854775808\",\"18446744073709551616\"]");
    }

    @Test
    void anotherImplementationAgreesOnRecords() throws IOException {
        for (RunRecord record : RecordSchemaTest.written().toList()) {
            byte[] json = RecordJson.bytes(record);
            assertThat(CanonicalJson.of(json)).isEqualTo(new JsonCanonicalizer(json).getEncodedUTF8());
        }
    }

    @Test
    void anotherImplementationAgreesOnRandomNumbersAndTexts() throws IOException {
        SplittableRandom random = new SplittableRandom(20260214);
        for (int i = 0; i < 2_000; i++) {
            double number = Double.longBitsToDouble(random.nextLong());
            String name = Integer.toString(random.nextInt(100_000), 36);
            String json = "{\"" + name + "\":[" + (Double.isFinite(number) ? number : 1.5) + ",\"\\u"
                    + String.format("%04x", random.nextInt(0xd800)) + "\"],\"a\":{}}";
            if (!name.equals("a")) {
                assertThat(of(json)).isEqualTo(new JsonCanonicalizer(json).getEncodedString());
            }
        }
    }

    /**
     * ECMAScript's Number::toString as RFC 8785 §3.2.2.3 asks for it, by exact decimals: the fewest digits that are read as the
     * same double, of those the nearest; plain from 10⁻⁶ to below 10²¹, with an exponent elsewhere.
     */
    @Test
    void numbersAreTheShortestDecimalsByExactArithmetic() {
        SplittableRandom random = new SplittableRandom(20261128);
        for (int i = 0; i < 4_000; i++) {
            double any = Double.longBitsToDouble(random.nextLong());
            double near = (random.nextDouble() - 0.5) * Math.pow(10, random.nextInt(-8, 24));
            double number = i % 2 == 0 && Double.isFinite(any) ? any : near;
            String text = of("[" + number + "]");
            text = text.substring(1, text.length() - 1);
            BigDecimal exact = new BigDecimal(number);
            BigDecimal written = new BigDecimal(text).stripTrailingZeros();
            int digits = written.precision();
            assertThat(Double.parseDouble(text)).as(text).isEqualTo(number);
            assertThat(exact.round(new MathContext(digits, RoundingMode.HALF_EVEN)))
                    .as(text)
                    .isEqualByComparingTo(written);
            if (digits > 1) {
                BigDecimal shorter = exact.round(new MathContext(digits - 1, RoundingMode.HALF_EVEN));
                assertThat(shorter.doubleValue())
                        .as("%s with a digit less", text)
                        .isNotEqualTo(number);
            }
            double size = Math.abs(number);
            assertThat(text.contains("e")).as(text).isEqualTo(size < 1e-6 || size >= 1e21);
        }
    }

    @Test
    void whatIsCanonicalStaysAsItIs() {
        String once = of("{\"b\":[1.50,{\"z\":null,\"y\":\"\\u00e9\\n\"}],\"a\":-0.0}");
        assertThat(of(once)).isEqualTo(once);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "{",
                "[1,]",
                "{\"a\":1,\"a\":2}",
                "[1] 2",
                "[\"\\ud800\"]",
                "[\"\\udc00\"]",
                "[NaN]",
                "[1e999]",
                "nul",
                "[01]"
            })
    void whatHasNoCanonicalFormIsRefused(String json) {
        assertThatThrownBy(() -> of(json)).isInstanceOf(RecordException.class);
    }

    @Test
    void deepNestingIsRefusedWithoutAnOverflow() {
        assertThatThrownBy(() -> of("[".repeat(100_000))).isInstanceOf(RecordException.class);
    }
}
