package tracksoak.report.page;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import nu.validator.client.EmbeddedValidator;

/** HTML Living Standard, as checked by the Nu Html Checker. */
final class HtmlCheck {

    private HtmlCheck() {}

    /** What is wrong with a page. One page at a time: the checker does not say that it can take more. */
    static synchronized List<String> errors(String page) throws Exception {
        EmbeddedValidator validator = new EmbeddedValidator();
        validator.setOutputFormat(EmbeddedValidator.OutputFormat.JSON);
        String said = validator.validate(new ByteArrayInputStream(page.getBytes(StandardCharsets.UTF_8)));
        return new ObjectMapper()
                .readTree(said).findParents("message").stream()
                        .filter(message -> message.path("type").asText().equals("error"))
                        .map(JsonNode::toString)
                        .toList();
    }
}
