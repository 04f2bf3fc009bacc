package tracksoak.report.record.facts;

/**
 * A distribution of times in µs, with the whole histogram in HdrHistogram V2 compressed encoding.
 *
 * @param count values recorded
 * @param meanUs mean in µs
 * @param p50Us median in µs
 * @param p90Us 90th percentile in µs
 * @param p99Us 99th percentile in µs
 * @param p999Us 99.9th percentile in µs
 * @param maxUs largest in µs
 * @param histogram base64 of the V2 compressed encoding; its values are ns
 */
public record Latency(
        long count,
        double meanUs,
        double p50Us,
        double p90Us,
        double p99Us,
        double p999Us,
        double maxUs,
        String histogram) {}
