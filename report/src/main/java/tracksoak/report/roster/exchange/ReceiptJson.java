package tracksoak.report.roster.exchange;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/** A receipt as it crosses a network. Stateless. */
public final class ReceiptJson {

    private static final String SCHEMA = "tracksoak/roster-receipt/1";
    private static final ObjectMapper MAPPER = new ObjectMapper();

    private ReceiptJson() {}

    /** The receipt as one JSON document in UTF-8. */
    public static byte[] bytes(Receipt receipt) {
        ObjectNode json = MAPPER.createObjectNode();
        json.put("schema", SCHEMA);
        json.put("taken", receipt.taken());
        json.put("known", receipt.known());
        ArrayNode refused = json.putArray("refused");
        receipt.refused()
                .forEach(one -> refused.addObject().put("event", one.event()).put("why", one.why()));
        try {
            return MAPPER.writeValueAsBytes(json);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("figures and texts always become JSON", e);
        }
    }

    /**
     * Reads one.
     *
     * @param most most events it may speak of
     * @throws Problem of kind REFUSED if it is none
     */
    public static Receipt read(byte[] json, int most) {
        JsonNode root;
        try {
            root = SmallJson.read(json);
        } catch (IOException e) {
            throw ParcelLines.refused("the other roster's receipt is no JSON", e);
        }
        int taken = root.path("taken").asInt(-1);
        int known = root.path("known").asInt(-1);
        JsonNode refused = root.path("refused");
        boolean fine = SCHEMA.equals(root.path("schema").asText())
                && taken >= 0
                && known >= 0
                && refused.isArray()
                && (long) taken + known + refused.size() <= most;
        if (!fine) {
            throw ParcelLines.refused("the other roster's receipt is none that this program knows", null);
        }
        List<Receipt.Refusal> refusals = new ArrayList<>();
        refused.forEach(one -> refusals.add(new Receipt.Refusal(
                Inert.text(one.path("event").asText()),
                Inert.text(one.path("why").asText()))));
        return new Receipt(taken, known, refusals);
    }
}
