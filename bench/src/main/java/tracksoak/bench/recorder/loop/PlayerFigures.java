package tracksoak.bench.recorder.loop;

/**
 * What the books of a player say at one moment.
 *
 * @param books in the terms of a take: what is lost is silence, a backlog is what a buffer lacked, bytes were read
 * @param underruns times a track ran dry
 * @param leastHeldMs least audio held by any track just before a chunk arrived, in ms
 */
public record PlayerFigures(TakeFigures books, long underruns, double leastHeldMs) {}
