package tracksoak.profiles;

/**
 * What the session asks of a drive, one figure per criterion. Factors are "have ÷ need", so 1.0 is just enough.
 *
 * @param buffer least buffer margin: recorder buffer ÷ peak backlog, factor
 * @param rate least rate margin: floor ÷ demand, and 1 ÷ busy fraction, factor
 * @param port least port margin: link speed ÷ demand, factor
 * @param playback least playback margin: read-ahead buffer ÷ peak shortfall, factor
 * @param longestStallMs longest stall allowed, in ms
 * @param closeMs longest time allowed from "stop" to "safe to unplug", in ms
 */
public record Margins(double buffer, double rate, double port, double playback, long longestStallMs, long closeMs) {}
