package tracksoak.report.record.json;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import tracksoak.profiles.Session;

/**
 * Turns a record of version 1 into one of version 2: a PASS counts as long as is usual, no tag, nothing waited, no rounds, no
 * playback, no keepsake, no sums per second, no estimate, no odds.
 */
final class VersionOne {

    private VersionOne() {}

    static JsonNode raised(JsonNode record) {
        if (record instanceof ObjectNode root) {
            root.put("schema", "tracksoak/run-record/2");
            root.putIfAbsent("tag", root.nullNode());
            root.putIfAbsent("ready", root.nullNode());
            if (root.get("plan") instanceof ObjectNode plan) {
                plan.put("wholeSpace", false);
                plan.put("copyS", 0);
                plan.put("copyCapS", 0);
                plan.put("playbackS", 0);
                plan.put("keepsakeBytes", 0);
                plan.put("requalifies", "");
            }
            if (root.get("session") instanceof ObjectNode session) {
                session.put("validDays", Session.USUAL_VALID_DAYS);
            }
            if (root.get("verdict") instanceof ObjectNode verdict) {
                verdict.putNull("estimate");
                verdict.putNull("odds");
            }
            for (JsonNode each : root.path("phases")) {
                if (each instanceof ObjectNode phase) {
                    phase.putNull("rounds");
                    phase.putNull("playback");
                    phase.putNull("keepsake");
                    if (phase.get("series") instanceof ObjectNode series) {
                        series.putNull("serviceMs");
                        series.putNull("flushes");
                        series.putNull("flushMs");
                        series.putNull("maxFlushMs");
                    }
                }
            }
        }
        return record;
    }
}
