package tracksoak.report.record.facts;

/**
 * What the host did while the phase went on.
 *
 * @param canaryMaxMs longest delay the canary saw, in ms
 * @param canaryTotalMs sum of its delays above 1 ms, in ms
 * @param ownMaxMs longest the recorder loop itself came late with nothing in flight, in ms
 * @param ownTotalMs sum of those, in ms
 * @param suspendedMs how long the computer slept, in ms
 * @param clockStepMs how far the wall clock jumped against the monotonic clock, in ms, sleep not counted
 * @param sleepKnown whether sleep can be told from a clock step on this system
 */
public record HostDelays(
        double canaryMaxMs,
        double canaryTotalMs,
        double ownMaxMs,
        double ownTotalMs,
        double suspendedMs,
        double clockStepMs,
        boolean sleepKnown) {}
