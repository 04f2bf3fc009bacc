package tracksoak.bench.standin;

/**
 * What a stand-in has done.
 *
 * @param writes how many writes
 * @param writtenBytes how many bytes they held
 * @param medianMs median service time of a write in ms: from being free for it to the answer
 * @param p99Ms the time that 99 of 100 writes did not exceed, in ms
 * @param longestMs the longest, in ms
 * @param ownMs the longest time that this computer itself took for a request, in ms
 */
public record Served(long writes, long writtenBytes, double medianMs, double p99Ms, double longestMs, double ownMs) {}
