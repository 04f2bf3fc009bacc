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
     * @param handedOver how many events were handed over; each of them must be accounted for, or it might be lost unnoticed
     * @throws IOException if it is none, or speaks of more events or fewer
     */
    public static Receipt read(byte[] json, int handedOver) throws IOException {
        JsonNode root = SmallJson.read(json);
        int taken = count(root.path("taken"));
        int known = count(root.path("known"));
        List<Receipt.Refusal> refusals = new ArrayList<>();
        for (JsonNode one : root.path("refused")) {
            refusals.add(new Receipt.Refusal(text(one.path("event")), text(one.path("why"))));
        }
        if (!SCHEMA.equals(root.path("schema").asText())
                || !root.path("refused").isArray()
                || (long) taken + known + refusals.size() != handedOver) {
            throw new IOException("it does not account for " + handedOver + " events");
        }
        return new Receipt(taken, known, refusals);
    }

    private static int count(JsonNode node) throws IOException {
        if (!node.isInt() || node.intValue() < 0) {
            throw new IOException("a number of events is none");
        }
        return node.intValue();
    }

    private static String text(JsonNode node) throws IOException {
        if (!node.isTextual() || node.textValue().isBlank()) {
            throw new IOException("a refusal has no name or no reason");
        }
        return Inert.text(node.textValue());
    }
}
