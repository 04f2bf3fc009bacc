package tracksoak.bench.command.drives;

import java.util.LinkedHashMap;
import java.util.Map;
import tracksoak.bench.job.KeepsakesLeft;
import tracksoak.profiles.base.Units;

/** A keepsake that stays, in words and as JSON. */
final class KeepsakeText {

    private KeepsakeText() {}

    /** The same as the JSON of {@code clear --keepsake} has, with when it was left. */
    static Map<String, Object> json(KeepsakesLeft.One one) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("folder", one.folder().folder().toString());
        json.put("there", true);
        json.put("bytes", one.bytes());
        json.put("writtenAt", one.writtenAt() == null ? null : one.writtenAt().toString());
        json.put("days", one.days());
        json.put("deleted", false);
        return json;
    }

    static String sentence(KeepsakesLeft.One one) {
        String name = one.folder().name();
        return "the keepsake " + name + " (" + (one.bytes() == null ? "size unknown" : Units.bytes(one.bytes())) + ", "
                + age(one) + ") is left, as it was left on purpose; to remove it: tracksoak clear PATH --keepsake "
                + name
                + " --yes";
    }

    private static String age(KeepsakesLeft.One one) {
        Double days = one.days();
        if (days == null) {
            return "age unknown";
        }
        return days < 0
                ? "dated " + one.writtenAt() + ", in the future of this computer's clock"
                : Units.days(days) + " old";
    }
}
