package tracksoak.report.record.json;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.ser.std.StdSerializer;
import java.io.IOException;
import java.math.BigDecimal;
import tracksoak.report.record.facts.RecordException;

/** Doubles without an exponent where people would not write one, and so that reading gives the same double back. */
final class DoubleJson extends StdSerializer<Double> {

    DoubleJson(Class<?> type) {
        super(type, false);
    }

    @Override
    public void serialize(Double value, JsonGenerator json, SerializerProvider provider) throws IOException {
        json.writeNumber(text(value));
    }

    static String text(double value) {
        if (!Double.isFinite(value)) {
            throw new RecordException(
                    "the run record cannot be written",
                    "",
                    value + " is no number JSON has",
                    "this is a fault of Tracksoak");
        }
        double size = Math.abs(value);
        if (value == 0 || size < 1e-6 || size >= 1e15) {
            return Double.toString(value);
        }
        return new BigDecimal(Double.toString(value)).stripTrailingZeros().toPlainString();
    }
}
