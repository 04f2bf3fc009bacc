package tracksoak.report.page;

import com.microsoft.playwright.Page;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;

/** What axe-core finds against WCAG 2.2, as far as a machine can check it. */
public final class Axe {

    private Axe() {}

    /** One line per violation, empty for none. */
    public static String violations(Page page) throws IOException {
        // evaluated by the debugger, not by the page, so the page's policy stays in force
        page.evaluate(script());
        return (String) page.evaluate("""
                async () => (await axe.run(document, { resultTypes: ['violations'] })).violations
                  .map(it => it.id + ': ' + it.nodes.map(node => node.target + ' ' + node.failureSummary).join('; '))
                  .join('\\n')
                """);
    }

    /** The script from the test class path, or a newer one given with {@code -Daxe.script=FILE}. */
    private static String script() throws IOException {
        String newer = System.getProperty("axe.script");
        if (newer != null) {
            return Files.readString(Path.of(newer));
        }
        try (InputStream in = Objects.requireNonNull(Axe.class.getResourceAsStream("/axe.min.js"))) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
