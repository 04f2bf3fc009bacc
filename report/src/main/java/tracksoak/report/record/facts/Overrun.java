package tracksoak.report.record.facts;

/**
 * Audio lost in one go: the chunks of all streams dropped while one backlog lasted.
 *
 * @param atS when the first chunk was dropped, in s from the start of the phase
 * @param lostMs audio lost on the worst track, in ms
 * @param tracks tracks that lost audio
 * @param hostMs delay of the host since the drive last had nothing to do, in ms
 */
public record Overrun(double atS, double lostMs, int tracks, double hostMs) {}
