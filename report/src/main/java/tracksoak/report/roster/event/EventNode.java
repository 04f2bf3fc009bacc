package tracksoak.report.roster.event;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.report.roster.identity.DriveIdentity;

/** Takes an event out of a JSON tree, part by part; whatever is not expected is refused. */
final class EventNode {

    private static final Set<String> PARTS = Set.of(
            "schema",
            "id",
            "kind",
            "at",
            "by",
            "key",
            "why",
            "drive",
            "tag",
            "identity",
            "lifts",
            "record",
            "subject",
            "signature");

    private EventNode() {}

    static RosterEvent event(JsonNode node) {
        String schema = text(node, "schema");
        if (!schema.equals(RosterEvent.SCHEMA)) {
            throw Kind.REFUSED.problem(
                    "the event cannot be read",
                    "its schema is " + Inert.text(schema) + ", known is " + RosterEvent.SCHEMA,
                    "use the Tracksoak that wrote it, or a newer one");
        }
        only(node, PARTS);
        String word = text(node, "kind");
        return new RosterEvent(
                text(node, "id"),
                EventKind.of(word).orElseThrow(() -> refused("its kind " + Inert.text(word) + " is not known")),
                instant(text(node, "at")),
                text(node, "by"),
                text(node, "key"),
                text(node, "why"),
                maybe(node, "drive"),
                identity(node.get("identity")),
                maybe(node, "tag"),
                lifts(node.get("lifts")),
                record(node.get("record")),
                subject(node.get("subject")),
                text(node, "signature"));
    }

    private static @Nullable DriveIdentity identity(@Nullable JsonNode node) {
        if (node == null) {
            return null;
        }
        only(node, Set.of("maker", "model", "serial", "sizeBytes"));
        JsonNode size = node.get("sizeBytes");
        if (size != null && !(size.isIntegralNumber() && size.canConvertToLong())) {
            throw refused("the size of its drive is no whole number of bytes");
        }
        return new DriveIdentity(
                maybe(node, "maker"),
                maybe(node, "model"),
                maybe(node, "serial"),
                size == null ? null : size.longValue());
    }

    private static List<String> lifts(@Nullable JsonNode node) {
        List<String> lifts = new ArrayList<>();
        if (node != null) {
            if (!node.isArray() || node.isEmpty() || node.size() > EventCheck.MOST_LIFTS) {
                throw refused("what it takes back is no list of 1 to " + EventCheck.MOST_LIFTS);
            }
            for (JsonNode entry : node) {
                if (!entry.isTextual()) {
                    throw refused("an entry of what it takes back is no text");
                }
                lifts.add(entry.textValue());
            }
        }
        return lifts;
    }

    private static @Nullable RecordRef record(@Nullable JsonNode node) {
        if (node == null) {
            return null;
        }
        only(node, Set.of("sha256", "by", "key", "signature"));
        return new RecordRef(text(node, "sha256"), text(node, "by"), text(node, "key"), text(node, "signature"));
    }

    private static @Nullable KeyRef subject(@Nullable JsonNode node) {
        if (node == null) {
            return null;
        }
        only(node, Set.of("key", "name"));
        return new KeyRef(text(node, "key"), text(node, "name"));
    }

    private static Instant instant(String text) {
        Instant at;
        try {
            at = Instant.parse(text);
        } catch (DateTimeException e) {
            throw refused("its time " + Inert.text(text) + " is none");
        }
        if (!at.equals(at.truncatedTo(ChronoUnit.MILLIS))) {
            throw refused("its time " + Inert.text(text) + " is finer than a millisecond");
        }
        EventCheck.dated(at);
        if (!at.toString().equals(text)) {
            throw refused("its time " + Inert.text(text) + " is to be written " + at
                    + ", for there is one way to write each");
        }
        return at;
    }

    private static String text(JsonNode node, String name) {
        JsonNode value = node.get(name);
        if (value == null || !value.isTextual()) {
            throw refused("its part " + name + " is missing or no text");
        }
        return value.textValue();
    }

    private static @Nullable String maybe(JsonNode node, String name) {
        return node.has(name) ? text(node, name) : null;
    }

    private static void only(JsonNode node, Set<String> parts) {
        if (!node.isObject()) {
            throw refused("a part of it is no object");
        }
        for (Iterator<String> names = node.fieldNames(); names.hasNext(); ) {
            String name = names.next();
            if (!parts.contains(name)) {
                throw refused("its part " + Inert.text(name) + " is not known");
            }
        }
    }

    static Problem refused(String why) {
        return Kind.REFUSED.problem(
                "the event cannot be read", Inert.text(why), "it is damaged or was edited: get it again");
    }
}
