package tracksoak.bench.recorder.watch;

/** Knows how much of an interval the host itself held things up. */
@FunctionalInterface
public interface HostWatch {

    /** A host that never delays anything: virtual time. */
    HostWatch NONE = (fromNs, toNs) -> 0;

    /**
     * Delay of the host inside an interval of the recent past.
     *
     * @return ns, at most {@code toNs − fromNs}
     */
    long delayNs(long fromNs, long toNs);

    /**
     * The same in an interval in which the device was to work all the time: time in which it had nothing to do is the host's,
     * too.
     */
    default long heldUpNs(long fromNs, long toNs) {
        return delayNs(fromNs, toNs);
    }
}
