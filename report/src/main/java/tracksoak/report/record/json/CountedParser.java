package tracksoak.report.record.json;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import com.fasterxml.jackson.core.util.JsonParserDelegate;
import java.io.IOException;

/**
 * Counts while it reads, so that a short text that stands for a heap of small parts is refused before they are made. What a real
 * record has: at most some twenty phases with 500 stalls and 500 overruns each, and nine columns of 12 h for each of ten of them.
 */
final class CountedParser extends JsonParserDelegate {

    /** Names, texts, objects and lists: three times what the largest record has. */
    static final int MOST_PARTS = 500_000;

    /** Entries of any list, but for whole numbers. */
    static final int MOST_ENTRIES = RecordCheck.LONGEST_LIST;

    /** Whole numbers: columns. Each takes 4 bytes in the model. */
    static final int MOST_NUMBERS = 4_000_000;

    private int parts;
    private int numbers;
    private int depth;
    private final int[] entries = new int[RecordMapper.DEEPEST + 1];

    CountedParser(JsonParser parser) {
        super(parser);
    }

    @Override
    public JsonToken nextToken() throws IOException {
        return counted(super.nextToken());
    }

    /** As {@link JsonParser#nextValue} says, but through {@link #nextToken}, which counts. */
    @Override
    public JsonToken nextValue() throws IOException {
        JsonToken token = nextToken();
        return token == JsonToken.FIELD_NAME ? nextToken() : token;
    }

    /** As {@link JsonParser#skipChildren} says, but through {@link #nextToken}: what is skipped counts, for its names are kept. */
    @Override
    public JsonParser skipChildren() throws IOException {
        JsonToken token = currentToken();
        int open = token != null && token.isStructStart() ? 1 : 0;
        while (open > 0) {
            JsonToken next = nextToken();
            if (next == null) {
                return this;
            }
            open += next.isStructStart() ? 1 : next.isStructEnd() ? -1 : 0;
        }
        return this;
    }

    private JsonToken counted(JsonToken token) throws IOException {
        if (token == JsonToken.VALUE_NUMBER_INT) {
            within(++numbers, MOST_NUMBERS, "whole numbers");
        } else if (token == JsonToken.END_ARRAY || token == JsonToken.END_OBJECT) {
            depth--;
        } else if (token != null) {
            within(++parts, MOST_PARTS, "parts");
            within(++entries[depth], MOST_ENTRIES, "entries of one list or object");
            if (token.isStructStart()) {
                entries[++depth] = 0;
            }
        }
        return token;
    }

    private static void within(int count, int most, String what) throws StreamConstraintsException {
        if (count > most) {
            throw new StreamConstraintsException("more than " + most + " " + what);
        }
    }
}
