package tracksoak.report.roster.web.page;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import tracksoak.report.roster.web.page.view.DrivePage;
import tracksoak.report.roster.web.page.view.LabelPage;
import tracksoak.report.roster.web.page.view.TablePage;
import tracksoak.report.roster.web.page.view.TonightPage;
import tracksoak.report.roster.web.page.view.TroublePage;

/** Views turned into HTML. Everything is escaped by its context. Any thread. */
final class Pages {

    private static final TemplateEngine ENGINE = TemplateEngine.createPrecompiled(
            null, ContentType.Html, Pages.class.getClassLoader(), "tracksoak.report.templates");

    private Pages() {}

    static String table(TablePage page) {
        return render("table", page);
    }

    static String tonight(TonightPage page) {
        return render("tonight", page);
    }

    static String drive(DrivePage page) {
        return render("drive", page);
    }

    static String labels(LabelPage page) {
        return render("labels", page);
    }

    static String trouble(TroublePage page) {
        return render("trouble", page);
    }

    private static String render(String template, Object page) {
        StringOutput output = new StringOutput();
        ENGINE.render("roster/" + template + ".jte", page, output);
        return output.toString();
    }
}
