package tracksoak.report.page.bench;

import java.util.List;
import java.util.Locale;
import tracksoak.profiles.base.Units;

/**
 * The backlog of the last minutes against the recorder's buffer, as a drawing of {@value #WIDTH} by {@value #HEIGHT} units.
 *
 * @param line points of the line
 * @param bufferY where the buffer's limit is drawn
 * @param buffer the limit in words
 * @param summary what the drawing shows, in a sentence
 * @param lengthS how long the drawn time is, in words
 */
public record BacklogChart(String line, double bufferY, String buffer, String summary, String lengthS) {

    public static final int WIDTH = 600;
    public static final int HEIGHT = 160;

    /**
     * Draws it.
     *
     * @param backlogMs the largest of each piece of time, in ms, the newest last
     * @param pieceMs length of a piece, in ms
     */
    public static BacklogChart of(List<Double> backlogMs, long pieceMs, double bufferMs) {
        double most = backlogMs.stream().mapToDouble(Double::doubleValue).max().orElse(0);
        double top = Math.max(bufferMs * 1.15, most * 1.05);
        StringBuilder line = new StringBuilder();
        int count = backlogMs.size();
        for (int i = 0; i < count; i++) {
            double x = count == 1 ? WIDTH : (double) i * WIDTH / (count - 1);
            line.append(line.length() == 0 ? "M" : "L").append(point(x, backlogMs.get(i) / top));
        }
        return new BacklogChart(
                line.toString(),
                HEIGHT - bufferMs / top * HEIGHT,
                "buffer " + Units.ms(bufferMs),
                "Chart: the backlog of the last " + Units.seconds(count * pieceMs / 1e3) + ", at most " + Units.ms(most)
                        + ", against a buffer of " + Units.ms(bufferMs),
                Units.seconds(count * pieceMs / 1e3));
    }

    private static String point(double x, double share) {
        return String.format(Locale.ROOT, "%.1f %.1f", x, HEIGHT - Math.min(1, share) * HEIGHT);
    }
}
