package tracksoak.report.roster.event;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Count;
import tracksoak.report.record.json.JsonDamage;
import tracksoak.report.record.sign.CanonicalJson;
import tracksoak.report.roster.identity.DriveIdentity;

/** Events as JSON. Written in canonical form (RFC 8785); reading is strict and bounded. Any thread. */
public final class EventJson {

    /** Largest event read, in bytes. */
    public static final int MOST_BYTES = 64 << 10;

    /** 500 events taken back, and the parts of one event, with room. */
    private static final int MOST_TOKENS = 1_000;

    private static final JsonMapper MAPPER = JsonMapper.builder(JsonFactory.builder()
                    .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                    .streamReadConstraints(StreamReadConstraints.builder()
                            .maxNestingDepth(6)
                            .maxStringLength(8_000)
                            .maxNameLength(40)
                            .maxNumberLength(30)
                            .maxTokenCount(MOST_TOKENS)
                            .build())
                    .build())
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    private EventJson() {}

    /** The event in canonical JSON, UTF-8, with its signature. */
    public static byte[] bytes(RosterEvent event) {
        return canonical(node(event).put("signature", event.signature()));
    }

    /** What its author signs: the same without the signature. */
    static byte[] signed(RosterEvent event) {
        return canonical(node(event));
    }

    /**
     * Reads an event. Whether its signature holds is {@link RosterEvent#holds}.
     *
     * @throws tracksoak.profiles.base.Problem if it is none, damaged, out of bounds or of a newer version
     */
    public static RosterEvent read(byte[] json) {
        if (json.length > MOST_BYTES) {
            throw EventNode.refused("it is larger than " + MOST_BYTES + " bytes");
        }
        JsonNode node;
        try {
            node = MAPPER.readTree(json);
        } catch (StreamConstraintsException e) {
            throw EventNode.refused("a text or a list in it is longer than any event's: a note or a reason has at most "
                    + Count.number(EventCheck.LONGEST_WHY) + " characters");
        } catch (JsonProcessingException e) {
            throw EventNode.refused(JsonDamage.words(e));
        } catch (IOException e) {
            throw EventNode.refused(String.valueOf(e.getMessage()));
        }
        RosterEvent event = EventNode.event(node);
        EventCheck.checkSigned(event);
        return event;
    }

    /** The id in a text that need be no event; none where it is no JSON or has none. */
    static Optional<String> id(byte[] json) {
        try {
            return Optional.ofNullable(MAPPER.readTree(json).path("id").textValue());
        } catch (IOException damaged) {
            return Optional.empty();
        }
    }

    private static ObjectNode node(RosterEvent event) {
        ObjectNode node = MAPPER.createObjectNode();
        node.put("schema", RosterEvent.SCHEMA);
        node.put("id", event.id());
        node.put("kind", event.kind().word());
        node.put("at", event.at().toString());
        node.put("by", event.by());
        node.put("key", event.key());
        node.put("why", event.why());
        put(node, "drive", event.drive());
        put(node, "tag", event.tag());
        DriveIdentity identity = event.identity();
        if (identity != null) {
            ObjectNode part = node.putObject("identity");
            put(part, "maker", identity.maker());
            put(part, "model", identity.model());
            put(part, "serial", identity.serial());
            if (identity.sizeBytes() != null) {
                part.put("sizeBytes", identity.sizeBytes());
            }
        }
        if (!event.lifts().isEmpty()) {
            ArrayNode lifts = node.putArray("lifts");
            event.lifts().forEach(lifts::add);
        }
        RecordRef record = event.record();
        if (record != null) {
            node.putObject("record")
                    .put("sha256", record.sha256())
                    .put("by", record.by())
                    .put("key", record.key())
                    .put("signature", record.signature());
        }
        KeyRef subject = event.subject();
        if (subject != null) {
            node.putObject("subject").put("key", subject.key()).put("name", subject.name());
        }
        return node;
    }

    private static void put(ObjectNode node, String name, @Nullable String value) {
        if (value != null) {
            node.put(name, value);
        }
    }

    private static byte[] canonical(ObjectNode node) {
        try {
            return CanonicalJson.of(MAPPER.writeValueAsBytes(node));
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("an event cannot be written", e);
        }
    }
}
