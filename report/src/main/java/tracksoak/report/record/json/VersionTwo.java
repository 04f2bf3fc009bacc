package tracksoak.report.record.json;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import tracksoak.report.record.facts.RunRecord;

/** Turns a run record of version 2 into one of version 3: nothing left alone, no start, no probes, counters of bytes alone. */
final class VersionTwo {

    private VersionTwo() {}

    static JsonNode raised(JsonNode record) {
        if (record instanceof ObjectNode root) {
            OlderParts.raise(root, RunRecord.SCHEMA);
            if (root.get("plan") instanceof ObjectNode plan) {
                OlderParts.refuse(plan, "idleS");
                plan.put("idleS", 0);
                OlderParts.refuse(plan, "reserveBytes");
                plan.putNull("reserveBytes");
            }
            for (JsonNode each : root.path("phases")) {
                if (each instanceof ObjectNode phase) {
                    OlderParts.refuse(phase, "start");
                    phase.putNull("start");
                    if (phase.get("device") instanceof ObjectNode device) {
                        OlderParts.refuse(device, "busyMs");
                        OlderParts.refuse(device, "otherBusBytes");
                        device.putNull("busyMs");
                        device.putNull("otherBusBytes");
                    }
                }
            }
        }
        return record;
    }
}
