package tracksoak.report.page;

import java.nio.charset.StandardCharsets;
import java.util.Base64;
import tracksoak.profiles.base.Digests;
import tracksoak.profiles.base.Shipped;

/** Styles and scripts that go into every page, from the class path, and the policy that lets only them run. */
final class SheetAssets {

    private static final String LIBRARY = "/META-INF/resources/webjars/uplot/1.6.30/";
    private static final String OWN = "/tracksoak/report/page/";

    private SheetAssets() {}

    static String styles() {
        return read(LIBRARY + "dist/uPlot.min.css") + "\n" + read(OWN + "sheet.css");
    }

    /** The chart library with its licence, as its licence asks. */
    static String chartLibrary() {
        return "/*\n" + read(LIBRARY + "LICENSE") + "*/\n" + read(LIBRARY + "dist/uPlot.iife.min.js");
    }

    static String pageScript() {
        return read(OWN + "sheet.js");
    }

    /** Nothing may be fetched from anywhere, and only these very scripts may run. */
    static String policy(String... scripts) {
        StringBuilder policy = new StringBuilder("default-src 'none'; script-src");
        for (String script : scripts) {
            policy.append(" 'sha256-").append(sha256(script)).append('\'');
        }
        return policy.append("; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'")
                .toString();
    }

    private static String sha256(String text) {
        return Base64.getEncoder().encodeToString(Digests.sha256(text.getBytes(StandardCharsets.UTF_8)));
    }

    /** A browser hashes a script after turning CR LF into LF. */
    private static String read(String resource) {
        return Shipped.text(resource).replace("\r", "");
    }
}
