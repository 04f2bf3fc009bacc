package tracksoak.bench.simulated.figures;

import java.util.Locale;

/** Figures with their units, for the one-line descriptions. */
public final class FigureText {

    private FigureText() {}

    public static String rate(long bytesPerSecond) {
        return bytes(bytesPerSecond) + "/s";
    }

    public static String bytes(long bytes) {
        if (bytes >= 1_000_000_000L) {
            return number(bytes / 1e9) + " GB";
        }
        if (bytes >= 1_000_000) {
            return number(bytes / 1e6) + " MB";
        }
        return bytes >= 1000 ? number(bytes / 1e3) + " kB" : bytes + " B";
    }

    public static String time(long ns) {
        if (ns >= 1_000_000_000L) {
            return number(ns / 1e9) + " s";
        }
        return ns >= 1_000_000 ? number(ns / 1e6) + " ms" : number(ns / 1e3) + " µs";
    }

    public static String share(int permille) {
        return number(permille / 10.0) + " %";
    }

    private static String number(double value) {
        String text = String.format(Locale.ROOT, "%.2f", value);
        return text.replaceAll("\\.?0+$", "");
    }
}
