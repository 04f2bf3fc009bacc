package tracksoak.report.record.json;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.deser.std.StdDeserializer;
import com.fasterxml.jackson.databind.ser.std.StdSerializer;
import java.io.IOException;
import java.util.regex.Pattern;
import tracksoak.report.record.facts.Seed;

/** Seeds as text: whole numbers as people write them, and no other. */
final class SeedJson {

    private static final Pattern NUMBER = Pattern.compile("0|-?[1-9][0-9]{0,18}");

    private SeedJson() {}

    static final class Out extends StdSerializer<Seed> {
        Out() {
            super(Seed.class);
        }

        @Override
        public void serialize(Seed seed, JsonGenerator json, SerializerProvider provider) throws IOException {
            json.writeString(seed.toString());
        }
    }

    static final class In extends StdDeserializer<Seed> {
        In() {
            super(Seed.class);
        }

        @Override
        public Seed deserialize(JsonParser json, DeserializationContext context) throws IOException {
            if (json.currentToken() != JsonToken.VALUE_STRING) {
                return (Seed) context.handleUnexpectedToken(Seed.class, json);
            }
            String text = json.getText();
            try {
                if (NUMBER.matcher(text).matches()) {
                    return new Seed(Long.parseLong(text));
                }
            } catch (NumberFormatException e) {
                // beyond 64 bits: refused like any other text
            }
            return (Seed) context.handleWeirdStringValue(Seed.class, text, "a seed is a whole number of 64 bits");
        }
    }
}
