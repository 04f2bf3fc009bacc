package tracksoak.report.roster.web.server;

import java.net.URLDecoder;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;

/** What a form of a page was filled in with. Nothing of it is trusted. Immutable. */
public final class Form {

    private static final int MOST_FIELDS = 400;
    private static final int LONGEST_VALUE = 4_000;

    private final Map<String, String> fields;

    /** Fields by their names. */
    public Form(Map<String, String> fields) {
        this.fields = new LinkedHashMap<>(fields);
    }

    /**
     * Reads the body of a form ({@code application/x-www-form-urlencoded}, WHATWG URL Standard, section 5.1).
     *
     * @throws Refusal if it is none, has too many fields, too long ones, or one twice
     */
    public static Form of(Exchange exchange, byte[] body) {
        String type = exchange.header(org.eclipse.jetty.http.HttpHeader.CONTENT_TYPE);
        if (type == null || !type.startsWith("application/x-www-form-urlencoded")) {
            throw Exchange.bad("the form", "it is not the form of this server");
        }
        Map<String, String> fields = new LinkedHashMap<>();
        for (String pair : text(body).split("&", -1)) {
            if (pair.isEmpty()) {
                continue;
            }
            int is = pair.indexOf('=');
            String name = decoded(is < 0 ? pair : pair.substring(0, is));
            String value = decoded(is < 0 ? "" : pair.substring(is + 1));
            if (value.length() > LONGEST_VALUE) {
                throw Exchange.bad("the form", "a field is longer than " + LONGEST_VALUE + " characters");
            }
            if (fields.put(name, value) != null) {
                throw Exchange.bad("the form", "a field was given twice");
            }
            if (fields.size() > MOST_FIELDS) {
                throw Exchange.bad("the form", "more than " + MOST_FIELDS + " fields");
            }
        }
        return new Form(fields);
    }

    private static String text(byte[] body) {
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .decode(java.nio.ByteBuffer.wrap(body))
                    .toString();
        } catch (CharacterCodingException e) {
            throw Exchange.bad("the form", "it is not UTF-8");
        }
    }

    private static String decoded(String text) {
        try {
            return URLDecoder.decode(text, StandardCharsets.UTF_8);
        } catch (IllegalArgumentException e) {
            throw Exchange.bad("the form", "it cannot be decoded");
        }
    }

    /** A field, stripped; empty where there is none. */
    public String field(String name) {
        return fields.getOrDefault(name, "").strip();
    }

    /** All fields as they came, in their order. */
    public Map<String, String> fields() {
        return Map.copyOf(fields);
    }
}
