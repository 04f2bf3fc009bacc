package tracksoak.report.roster.web.page;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import tracksoak.profiles.base.Shipped;
import tracksoak.report.page.ReportPage;
import tracksoak.report.roster.web.server.HttpAnswer;
import tracksoak.report.roster.web.server.Refusal;

/** The few files that pages load, all from the class path and read once. A name that is not in this list is nothing. */
final class StaticFiles {

    private final Map<String, HttpAnswer> all = Map.of(
            "roster.css",
                    answer(
                            "text/css;charset=utf-8",
                            ReportPage.styles() + "\n" + read("roster.css") + read("bench.css")),
            "live.js", answer("text/javascript;charset=utf-8", read("live.js")),
            "ring.js", answer("text/javascript;charset=utf-8", read("ring.js")),
            "mark.svg", answer("image/svg+xml", read("mark.svg")));

    /** @throws Refusal if there is none of that name */
    HttpAnswer of(String name) {
        HttpAnswer answer = all.get(name);
        if (answer == null) {
            throw Refusal.notFound("this file");
        }
        return answer;
    }

    private static HttpAnswer answer(String type, String text) {
        return HttpAnswer.of(type, text.getBytes(StandardCharsets.UTF_8))
                .with("Cache-Control", "max-age=3600")
                .kept();
    }

    private static String read(String name) {
        return Shipped.text("/tracksoak/report/roster/web/" + name);
    }
}
