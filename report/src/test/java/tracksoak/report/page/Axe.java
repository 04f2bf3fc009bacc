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

    /**
     * Remembers what passed the rule of colour contrast, which takes most of axe's time: a text whose own look, those of all that
     * it lies in and those of all that is painted behind it have passed once is not calculated anew. Only a pass is remembered,
     * so every text that fails is named.
     */
    private static final String EACH_LOOK_ONCE = """
            () => {
              const check = axe._audit.checks['color-contrast'];
              if (check.eachLookOnce) return;
              check.eachLookOnce = true;
              const judge = check.evaluate;
              const named = ['color', 'background-color', 'background-image', 'opacity', 'mix-blend-mode', 'filter', 'font-size',
                'font-weight', 'text-shadow', '-webkit-text-fill-color', '-webkit-text-stroke'];
              let run, looks, ways, passed;
              const look = element => {
                if (!looks.has(element)) {
                  const style = getComputedStyle(element);
                  looks.set(element, named.map(name => style.getPropertyValue(name)).join());
                }
                return looks.get(element);
              };
              const way = element => {
                if (!element) return '';
                if (!ways.has(element)) ways.set(element, look(element) + '<' + way(element.parentElement));
                return ways.get(element);
              };
              check.evaluate = function (element, ...more) {
                if (run !== axe._tree) [run, looks, ways, passed] = [axe._tree, new Map(), new Map(), new Set()];
                const behind = axe.commons.color.getBackgroundStack(element);
                const key = behind && axe.commons.dom.isVisibleOnScreen(element) && way(element) + '|' + behind.map(look).join('<');
                if (key && passed.has(key)) return true;
                const result = judge.call(this, element, ...more);
                if (key && result === true) passed.add(key);
                return result;
              };
            }
            """;

    private Axe() {}

    /** One line per violation, empty for none. */
    public static String violations(Page page) throws IOException {
        // evaluated by the debugger, not by the page, so the page's policy stays in force
        page.evaluate(script());
        page.evaluate(EACH_LOOK_ONCE);
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
