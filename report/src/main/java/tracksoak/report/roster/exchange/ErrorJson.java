package tracksoak.report.roster.exchange;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import tracksoak.profiles.base.Inert;

/** What a server says of a request it did not serve. */
final class ErrorJson {

    private ErrorJson() {}

    /** Its sentence, harmless to look at and of bounded length; empty where it says nothing that can be read. */
    static String sentence(byte[] json, int most) {
        try {
            JsonNode root = SmallJson.read(json);
            String why = root.path("why").asText("");
            String what = root.path("what").asText("");
            String said = Inert.text(what.isEmpty() || why.isEmpty() ? what + why : what + ": " + why);
            return said.length() <= most ? said : said.substring(0, most) + "…";
        } catch (IOException e) {
            return "";
        }
    }
}
