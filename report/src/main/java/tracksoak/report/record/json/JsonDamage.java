package tracksoak.report.record.json;

import com.fasterxml.jackson.core.JsonParseException;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import com.fasterxml.jackson.core.io.JsonEOFException;
import com.fasterxml.jackson.databind.exc.InvalidFormatException;
import com.fasterxml.jackson.databind.exc.MismatchedInputException;
import com.fasterxml.jackson.databind.exc.UnrecognizedPropertyException;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What is wrong with a JSON text, in words for people: the parser's own are for programmers. Stateless. */
public final class JsonDamage {

    private static final Pattern MISSING = Pattern.compile("Missing (?:required )?creator property '([^']{1,64})'");
    private static final Pattern NULL = Pattern.compile("(?i)\\bnull\\b");
    private static final Pattern TWICE = Pattern.compile("Duplicate field '([^']{1,64})'");
    private static final Pattern NO_NUMBER = Pattern.compile("Non-standard token '(\\w{1,16})'");

    /** What our own readers say begins small. */
    private static final Pattern OWN = Pattern.compile("more than \\d|entry \\d");

    private JsonDamage() {}

    /** A clause that stands by itself: {@code its part "tool" is missing}. */
    public static String words(JsonProcessingException wrong) {
        String said = String.valueOf(wrong.getOriginalMessage());
        if (OWN.matcher(said).lookingAt()) {
            return said.lines().findFirst().orElse(said);
        }
        Matcher missing = MISSING.matcher(said);
        if (missing.find()) {
            return "its part \"" + missing.group(1) + "\" is missing";
        }
        Matcher twice = TWICE.matcher(said);
        if (twice.find()) {
            return "its part \"" + twice.group(1) + "\" is there twice";
        }
        Matcher number = NO_NUMBER.matcher(said);
        if (number.find()) {
            return number.group(1) + " is no number";
        }
        if (wrong instanceof UnrecognizedPropertyException unknown) {
            return "it has a part \"" + RecordCheck.brief(unknown.getPropertyName()) + "\", which such a file has not";
        }
        if (wrong instanceof InvalidFormatException value) {
            return "\"" + RecordCheck.brief(String.valueOf(value.getValue())) + "\" cannot stand there";
        }
        if (wrong instanceof JsonEOFException) {
            return "it ends too early";
        }
        if (wrong instanceof StreamConstraintsException) {
            return "a text, a name or a number there is longer, or lies deeper, than in any such file";
        }
        if (wrong instanceof JsonParseException) {
            return "it is no whole JSON text";
        }
        if (wrong instanceof MismatchedInputException) {
            return NULL.matcher(said).find() ? "a value is missing" : "a value of another kind belongs there";
        }
        return "it is damaged";
    }
}
