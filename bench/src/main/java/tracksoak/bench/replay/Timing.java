package tracksoak.bench.replay;

/** How long the calls of a replay take, in ns. One replay each. */
interface Timing {

    /** A write called at {@code atNs} since the take began. */
    long writeNs(long atNs);

    /** A flush called at {@code atNs} since the take began. */
    long flushNs(long atNs);
}
