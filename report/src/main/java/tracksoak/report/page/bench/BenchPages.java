package tracksoak.report.page.bench;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;

/** Views turned into HTML. Everything is escaped by its context. Any thread. */
public final class BenchPages {

    private static final TemplateEngine ENGINE = TemplateEngine.createPrecompiled(
            null, ContentType.Html, BenchPages.class.getClassLoader(), "tracksoak.report.templates");

    private BenchPages() {}

    public static String bench(BenchView page) {
        return render("bench", page);
    }

    public static String start(StartView page) {
        return render("start", page);
    }

    public static String run(RunView page) {
        return render("run", page);
    }

    public static String tray(TrayView page) {
        return render("tray", page);
    }

    public static String tested(TestedTrayView page) {
        return render("whole", page);
    }

    public static String sessions(SessionsView page) {
        return render("sessions", page);
    }

    public static String session(SessionView page) {
        return render("session", page);
    }

    public static String help(HelpView page) {
        return render("help", page);
    }

    private static String render(String template, Object page) {
        StringOutput output = new StringOutput();
        ENGINE.render("bench/" + template + ".jte", page, output);
        return output.toString();
    }
}
