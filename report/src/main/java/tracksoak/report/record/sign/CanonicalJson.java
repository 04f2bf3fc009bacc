package tracksoak.report.record.sign;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import java.io.IOException;
import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.TreeMap;
import org.erdtman.jcs.NumberToJSON;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.json.JsonDamage;

/**
 * The one form of a JSON text that is signed: RFC 8785 (JSON Canonicalization Scheme). Names sorted by UTF-16 code units, no
 * white space, numbers as ECMAScript writes them. An integer beyond ±(2^53 − 1), which a double cannot hold, is written as a
 * string of its digits, as RFC 8785 appendix D advises, so that no digit escapes the signature. Any thread.
 */
public final class CanonicalJson {

    private static final long MOST_EXACT = (1L << 53) - 1;
    private static final BigInteger MOST_EXACT_BIG = BigInteger.valueOf(MOST_EXACT);
    private static final String CANNOT = "the JSON text has no canonical form";

    private static final JsonFactory FACTORY = JsonFactory.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .streamReadConstraints(StreamReadConstraints.builder()
                    .maxNestingDepth(40)
                    .maxStringLength(1 << 20)
                    .maxNameLength(1_000)
                    .maxNumberLength(400)
                    .build())
            .build();

    private CanonicalJson() {}

    /**
     * The canonical form of a JSON text, in UTF-8.
     *
     * @throws RecordException if it is no JSON, too deep, has a name twice, or a string that is no Unicode
     */
    public static byte[] of(byte[] json) {
        StringBuilder out = new StringBuilder(json.length);
        try (JsonParser parser = FACTORY.createParser(json)) {
            if (parser.nextToken() == null) {
                throw new RecordException(CANNOT, "", "it is empty", "get the file again");
            }
            value(parser, out);
            if (parser.nextToken() != null) {
                throw new RecordException(CANNOT, "", "something follows its end", "get the file again");
            }
        } catch (JsonProcessingException e) {
            throw new RecordException(CANNOT, "", JsonDamage.words(e), "get the file again", e);
        } catch (IOException e) {
            throw new RecordException(CANNOT, "", String.valueOf(e.getMessage()), "get the file again", e);
        }
        return out.toString().getBytes(StandardCharsets.UTF_8);
    }

    private static void value(JsonParser parser, StringBuilder out) throws IOException {
        JsonToken token = parser.currentToken();
        switch (token) {
            case START_OBJECT -> object(parser, out);
            case START_ARRAY -> array(parser, out);
            case VALUE_STRING -> string(parser.getText(), out);
            case VALUE_NUMBER_INT -> integer(parser, out);
            case VALUE_NUMBER_FLOAT -> out.append(NumberToJSON.serializeNumber(finite(parser.getDoubleValue())));
            case VALUE_TRUE, VALUE_FALSE, VALUE_NULL -> out.append(token.asString());
            default -> throw new RecordException(CANNOT, "", "a value is missing", "get the file again");
        }
    }

    private static void object(JsonParser parser, StringBuilder out) throws IOException {
        Map<String, String> sorted = new TreeMap<>();
        while (parser.nextToken() == JsonToken.FIELD_NAME) {
            String name = parser.currentName();
            parser.nextToken();
            StringBuilder member = new StringBuilder();
            value(parser, member);
            sorted.put(name, member.toString());
        }
        out.append('{');
        String comma = "";
        for (Map.Entry<String, String> member : sorted.entrySet()) {
            out.append(comma);
            string(member.getKey(), out);
            out.append(':').append(member.getValue());
            comma = ",";
        }
        out.append('}');
    }

    private static void array(JsonParser parser, StringBuilder out) throws IOException {
        out.append('[');
        String comma = "";
        while (parser.nextToken() != JsonToken.END_ARRAY) {
            out.append(comma);
            value(parser, out);
            comma = ",";
        }
        out.append(']');
    }

    private static void integer(JsonParser parser, StringBuilder out) throws IOException {
        if (parser.getNumberType() == JsonParser.NumberType.BIG_INTEGER) {
            BigInteger big = parser.getBigIntegerValue();
            boolean exact = big.abs().compareTo(MOST_EXACT_BIG) <= 0;
            out.append(exact ? big.toString() : '"' + big.toString() + '"');
            return;
        }
        long number = parser.getLongValue();
        if (number < -MOST_EXACT || number > MOST_EXACT) {
            out.append('"').append(number).append('"');
        } else {
            out.append(number);
        }
    }

    private static double finite(double number) {
        if (!Double.isFinite(number)) {
            throw new RecordException(CANNOT, "", "a number is too large", "get the file again");
        }
        return number;
    }

    private static void string(String text, StringBuilder out) {
        out.append('"');
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            switch (c) {
                case '"' -> out.append("\\\"");
                case '\\' -> out.append("\\\\");
                case '\b' -> out.append("\\b");
                case '\t' -> out.append("\\t");
                case '\n' -> out.append("\\n");
                case '\f' -> out.append("\\f");
                case '\r' -> out.append("\\r");
                default -> plain(text, i, c, out);
            }
        }
        out.append('"');
    }

    private static void plain(String text, int at, char c, StringBuilder out) {
        if (c < ' ') {
            out.append("\\u00").append(Character.forDigit(c >> 4, 16)).append(Character.forDigit(c & 15, 16));
            return;
        }
        boolean paired = Character.isHighSurrogate(c)
                ? at + 1 < text.length() && Character.isLowSurrogate(text.charAt(at + 1))
                : !Character.isLowSurrogate(c) || (at > 0 && Character.isHighSurrogate(text.charAt(at - 1)));
        if (!paired) {
            throw new RecordException(CANNOT, "", "a string holds half a character", "get the file again");
        }
        out.append(c);
    }
}
