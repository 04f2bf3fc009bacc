package tracksoak.bench.page;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.web.server.Form;

/** What only the bench's own pages know, so that only they can start or change something. One for each start. Immutable. */
final class Secret {

    private final String text;

    Secret(SecureRandom random) {
        byte[] bytes = new byte[32];
        random.nextBytes(bytes);
        text = Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    }

    /** For the bench's own pages. */
    String text() {
        return text;
    }

    /** @throws Problem if the form does not hold it */
    void check(Form form) {
        byte[] said = form.field("secret").getBytes(StandardCharsets.UTF_8);
        if (!MessageDigest.isEqual(said, text.getBytes(StandardCharsets.UTF_8))) {
            throw Problem.askedWrong(
                    "this form is not of this bench, or of one that was started before",
                    "open the page again and fill the form in there");
        }
    }
}
