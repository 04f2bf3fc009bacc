package tracksoak.report.record.json;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.deser.std.StdDeserializer;
import java.io.IOException;
import java.util.regex.Pattern;
import tracksoak.report.record.facts.Seed;

/** Reads seeds from text: whole numbers as people write them, and no other. */
final class SeedJson extends StdDeserializer<Seed> {

    private static final Pattern NUMBER = Pattern.compile("0|-?[1-9][0-9]{0,18}");

    SeedJson() {
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
