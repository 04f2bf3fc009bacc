package tracksoak.report.record.json;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import tracksoak.profiles.Session;

/**
 * Turns what documents have in common from the form before file systems, ports and starts were looked at into today's: a seed
 * that is a number, a session without headers and space in advance, a drive of whose port and volume nothing is known.
 */
final class OlderParts {

    private OlderParts() {}

    /** Raises the head of any document, and gives it today's schema. */
    static void raise(ObjectNode root, String schema) {
        root.put("schema", schema);
        JsonNode seed = root.get("seed");
        if (seed != null && seed.isIntegralNumber() && seed.canConvertToLong()) {
            root.put("seed", Long.toString(seed.longValue()));
        } else if (seed != null) {
            // anything else was never a seed, and is refused where it is read
            root.put("seed", seed.isTextual() ? "no number: " : seed.toString());
        }
        if (root.get("session") instanceof ObjectNode session) {
            add(session, "headerS", 0);
            add(session, "spaceInAdvanceBytes", 0);
            refuse(session, "risk");
            session.put("risk", Session.USUAL_RISK);
        }
        if (root.get("method") instanceof ObjectNode method) {
            add(method, "probes", method.nullNode());
        }
        if (root.get("drive") instanceof ObjectNode drive) {
            ObjectNode port = drive.objectNode();
            List.of("usbId", "firmware", "driver", "path").forEach(port::putNull);
            port.putArray("besides");
            add(drive, "port", port);
            ObjectNode volume = drive.objectNode();
            List.of("scheme", "offsetBytes", "label", "dirty", "options").forEach(volume::putNull);
            add(drive, "volume", volume);
            add(drive, "temperatureC", drive.nullNode());
        }
    }

    /** What an old document has of its own under a new name is unknown there: it is left in, to be refused as doubled. */
    private static void add(ObjectNode node, String name, JsonNode value) {
        refuse(node, name);
        node.set(name, value);
    }

    private static void add(ObjectNode node, String name, int value) {
        refuse(node, name);
        node.put(name, value);
    }

    /** A part that this version did not know yet. */
    static void refuse(ObjectNode node, String name) {
        if (node.has(name)) {
            throw RecordFormat.unknownPart(name);
        }
    }
}
