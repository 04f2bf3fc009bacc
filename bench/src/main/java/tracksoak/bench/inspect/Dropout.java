package tracksoak.bench.inspect;

import tracksoak.report.record.facts.inspection.Finding.Weight;
import tracksoak.report.record.facts.inspection.FindingKind;

/**
 * A stretch of one track, or of all that share its file, that may be lost audio.
 *
 * @param channel which track of the file; −1 for all
 * @param from first sample of it, from the beginning of the file
 * @param length samples
 * @param weight {@code LISTEN} where it is only that if there are few of its kind
 */
record Dropout(FindingKind kind, int channel, long from, long length, Weight weight) {}
