package tracksoak.report.record.facts;

/**
 * From "stop" to "safe to unplug", in parts that add up to the whole.
 *
 * @param drainMs writing what was still in the recorder's buffer, in ms
 * @param headersMs rewriting the header of every open file, in ms
 * @param flushMs flushing every open file, in ms
 * @param closeMs closing every file, in ms
 * @param directoryMs flushing the directory, in ms
 * @param totalMs the whole, in ms
 * @param files files closed
 */
public record CloseFacts(
        double drainMs,
        double headersMs,
        double flushMs,
        double closeMs,
        double directoryMs,
        double totalMs,
        int files) {}
