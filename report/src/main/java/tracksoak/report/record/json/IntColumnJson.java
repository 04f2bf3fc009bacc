package tracksoak.report.record.json;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.deser.std.StdDeserializer;
import com.fasterxml.jackson.databind.ser.std.StdSerializer;
import java.io.IOException;
import java.util.Arrays;
import tracksoak.report.record.facts.IntColumn;

/** A column of ints as a plain array of numbers. */
final class IntColumnJson {

    /** Seconds in a fortnight. */
    static final int LONGEST = 14 * 24 * 3600;

    private IntColumnJson() {}

    static final class Out extends StdSerializer<IntColumn> {
        Out() {
            super(IntColumn.class);
        }

        @Override
        public void serialize(IntColumn column, JsonGenerator json, SerializerProvider provider) throws IOException {
            int[] values = column.toArray();
            json.writeArray(values, 0, values.length);
        }
    }

    static final class In extends StdDeserializer<IntColumn> {
        In() {
            super(IntColumn.class);
        }

        @Override
        public IntColumn deserialize(JsonParser json, DeserializationContext context) throws IOException {
            if (!json.isExpectedStartArrayToken()) {
                return (IntColumn) context.handleUnexpectedToken(IntColumn.class, json);
            }
            int[] values = new int[256];
            int size = 0;
            while (json.nextToken() != JsonToken.END_ARRAY) {
                if (json.currentToken() != JsonToken.VALUE_NUMBER_INT) {
                    return context.reportInputMismatch(this, "entry %d is no whole number", size);
                }
                if (size == LONGEST) {
                    return context.reportInputMismatch(this, "more than %d entries", LONGEST);
                }
                if (size == values.length) {
                    values = Arrays.copyOf(values, size * 2);
                }
                values[size++] = json.getIntValue();
            }
            return IntColumn.of(Arrays.copyOf(values, size));
        }
    }
}
