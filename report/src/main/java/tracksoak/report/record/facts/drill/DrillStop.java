package tracksoak.report.record.facts.drill;

/**
 * The short take that was stopped before the drive was pulled: what a habit of stopping first is worth.
 *
 * @param seconds length of the take, in s
 * @param closeMs from "stop" to "safe to unplug", in ms
 */
public record DrillStop(double seconds, double closeMs) {}
