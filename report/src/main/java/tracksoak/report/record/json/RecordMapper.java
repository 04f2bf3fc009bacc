package tracksoak.report.record.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.json.JsonWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.core.util.Separators;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.cfg.MapperConfig;
import com.fasterxml.jackson.databind.introspect.AnnotatedClass;
import com.fasterxml.jackson.databind.introspect.JacksonAnnotationIntrospector;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.module.SimpleModule;
import com.fasterxml.jackson.databind.ser.std.ToStringSerializer;
import java.io.IOException;
import tracksoak.profiles.base.KebabCase;
import tracksoak.report.record.facts.IntColumn;
import tracksoak.report.record.facts.Seed;
import tracksoak.report.record.facts.Verdict;

/** The one mapper for run records: strict, bounded, and with a fixed form of numbers and names. */
public final class RecordMapper {

    static final int DEEPEST = 20;
    private static final int LONGEST_STRING = 1 << 20;
    private static final int LONGEST_NAME = 64;
    private static final int LONGEST_NUMBER = 40;

    public static final JsonMapper MAPPER = JsonMapper.builder(JsonFactory.builder()
                    .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                    .streamReadConstraints(StreamReadConstraints.builder()
                            .maxNestingDepth(DEEPEST)
                            .maxStringLength(LONGEST_STRING)
                            .maxNameLength(LONGEST_NAME)
                            .maxNumberLength(LONGEST_NUMBER)
                            .build())
                    // plain ASCII: nothing in a drive's name steers a terminal or turns the text where a record is read
                    .enable(JsonWriteFeature.ESCAPE_NON_ASCII)
                    .build())
            .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
            .enable(DeserializationFeature.FAIL_ON_MISSING_CREATOR_PROPERTIES)
            .enable(DeserializationFeature.FAIL_ON_NUMBERS_FOR_ENUMS)
            .disable(DeserializationFeature.ACCEPT_FLOAT_AS_INT)
            .disable(MapperFeature.ALLOW_COERCION_OF_SCALARS)
            .annotationIntrospector(new KebabEnums())
            .addModule(new SimpleModule()
                    .addSerializer(IntColumn.class, new IntColumnJson.Out())
                    .addDeserializer(IntColumn.class, new IntColumnJson.In())
                    .addSerializer(Seed.class, ToStringSerializer.instance)
                    .addDeserializer(Seed.class, new SeedJson())
                    .addSerializer(Double.class, new DoubleJson(Double.class))
                    .addSerializer(double.class, new DoubleJson(double.class)))
            .defaultPrettyPrinter(new DefaultPrettyPrinter(Separators.createDefaultInstance()
                            .withObjectFieldValueSpacing(Separators.Spacing.AFTER)
                            .withArrayValueSpacing(Separators.Spacing.NONE))
                    .withObjectIndenter(new DefaultIndenter(" ", "\n"))
                    .withArrayIndenter(new DefaultPrettyPrinter.NopIndenter()))
            .build();

    private RecordMapper() {}

    /**
     * Reads a document, counting as it goes.
     *
     * @throws com.fasterxml.jackson.core.JsonProcessingException if it is none of that type, or holds more than any document has
     */
    static <T> T read(byte[] json, Class<T> type) throws IOException {
        try (JsonParser parser = new CountedParser(MAPPER.createParser(json))) {
            return MAPPER.readValue(parser, type);
        }
    }

    /** Enums as {@code read-back}; the outcome alone keeps its capitals, as scripts look for it. */
    private static final class KebabEnums extends JacksonAnnotationIntrospector {

        @Override
        public String[] findEnumValues(
                MapperConfig<?> config, AnnotatedClass annotated, Enum<?>[] values, String[] names) {
            for (int i = 0; i < values.length; i++) {
                boolean asIs = values[i] instanceof Verdict.Outcome;
                names[i] = asIs ? values[i].name() : KebabCase.of(values[i]);
            }
            return names;
        }
    }
}
