package tracksoak.report.record.facts;

/**
 * An interval in which a chunk was ready and none got done.
 *
 * @param atS start, in s from the start of the phase
 * @param ms length in ms
 * @param hostMs delay of the host inside it, in ms
 */
public record Stall(double atS, double ms, double hostMs) {}
