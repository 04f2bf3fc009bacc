package tracksoak.bench.command.console;

import java.util.LinkedHashMap;
import java.util.Map;
import picocli.CommandLine.Option;

/** Commands that show something also show it to programs. */
public final class JsonOption {

    @Option(
            names = "--json",
            order = HelpOption.OF_MOST,
            description = "Print one JSON document instead of text. Its field \"schema\" names form and version.")
    public boolean asked;

    /** A document of the given form, for example {@code drives/1}. */
    public static Map<String, Object> document(String form) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("schema", "tracksoak/" + form);
        return json;
    }
}
