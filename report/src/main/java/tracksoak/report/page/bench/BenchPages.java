package tracksoak.report.page.bench;

import tracksoak.report.page.view.Templates;

/** The bench's own views turned into HTML, each by its template. Any thread. */
public final class BenchPages {

    private BenchPages() {}

    public static String bench(BenchView page) {
        return Templates.html("bench/bench", page);
    }

    public static String start(StartView page) {
        return Templates.html("bench/start", page);
    }

    public static String run(RunView page) {
        return Templates.html("bench/run", page);
    }

    public static String tray(TrayView page) {
        return Templates.html("bench/tray", page);
    }

    public static String tested(TestedTrayView page) {
        return Templates.html("bench/whole", page);
    }

    public static String sessions(SessionsView page) {
        return Templates.html("bench/sessions", page);
    }

    public static String session(SessionView page) {
        return Templates.html("bench/session", page);
    }

    public static String help(HelpView page) {
        return Templates.html("bench/help", page);
    }
}
