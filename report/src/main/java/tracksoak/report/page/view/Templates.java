package tracksoak.report.page.view;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;

/** Views turned into HTML. Everything is escaped by its context. Any thread. */
public final class Templates {

    private static final TemplateEngine ENGINE = TemplateEngine.createPrecompiled(
            null, ContentType.Html, Templates.class.getClassLoader(), "tracksoak.report.templates");

    private Templates() {}

    /**
     * A page.
     *
     * @param template its name, such as {@code roster/table}
     * @param page what it shows, of the type that the template takes
     */
    public static String html(String template, Object page) {
        StringOutput output = new StringOutput();
        ENGINE.render(template + ".jte", page, output);
        return output.toString();
    }
}
