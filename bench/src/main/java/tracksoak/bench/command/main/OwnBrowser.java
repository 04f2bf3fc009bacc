package tracksoak.bench.command.main;

import java.io.IOException;
import java.net.URI;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** Opens a page in the person's own browser, by the way each system has for it; never waits for the browser. */
public final class OwnBrowser {

    private OwnBrowser() {}

    /**
     * Opens a page where there is a desktop to open it on.
     *
     * @return whether that was tried; what becomes of it nobody learns
     */
    static boolean open(URI page) {
        List<String> words = words(System.getProperty("os.name", ""), System.getenv(), page);
        if (words.isEmpty()) {
            return false;
        }
        try {
            new ProcessBuilder(words)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
            return true;
        } catch (IOException noSuchProgram) {
            return false;
        }
    }

    /**
     * Program and arguments, empty where there is no desktop.
     *
     * @param system name of the operating system
     * @param environment the environment variables
     */
    public static List<String> words(String system, Map<String, String> environment, URI page) {
        String os = system.toLowerCase(Locale.ROOT);
        if (os.startsWith("windows")) {
            return List.of("rundll32", "url.dll,FileProtocolHandler", page.toString());
        }
        if (os.startsWith("mac")) {
            return List.of("open", page.toString());
        }
        boolean desktop = !environment.getOrDefault("DISPLAY", "").isBlank()
                || !environment.getOrDefault("WAYLAND_DISPLAY", "").isBlank();
        return desktop ? List.of("xdg-open", page.toString()) : List.of();
    }
}
