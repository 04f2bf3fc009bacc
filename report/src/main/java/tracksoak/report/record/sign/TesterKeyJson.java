package tracksoak.report.record.sign;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.json.JsonStrings;
import tracksoak.report.record.json.RecordMapper;

/** A tester's key as the JSON of its file. */
final class TesterKeyJson {

    private static final String SCHEMA = "tracksoak/tester-key/1";

    private TesterKeyJson() {}

    static byte[] bytes(TesterKey key) {
        return JsonStrings.object(
                "schema",
                SCHEMA,
                "name",
                key.name(),
                "public",
                key.verifyKey().text(),
                "secret",
                VerifyKey.encode(key.seed()));
    }

    static TesterKey read(byte[] json) {
        JsonNode node;
        try {
            node = RecordMapper.MAPPER.readTree(json);
        } catch (JsonProcessingException e) {
            throw damaged("it is no JSON"); // its words could hold the secret
        } catch (IOException e) {
            throw damaged(String.valueOf(e.getMessage()));
        }
        if (!SCHEMA.equals(text(node, "schema"))) {
            throw damaged("it is no " + SCHEMA);
        }
        byte[] seed = VerifyKey.decode(text(node, "secret"));
        if (seed.length != 32) {
            throw damaged("the secret is not 32 bytes long");
        }
        return TesterKey.of(text(node, "name"), seed, new VerifyKey(text(node, "public")));
    }

    private static String text(JsonNode node, String name) {
        return node.path(name).asText();
    }

    private static RecordException damaged(String why) {
        return new RecordException(
                "the tester's key cannot be used",
                "",
                why,
                "restore the file from a copy, or move it away and a new key is made");
    }
}
