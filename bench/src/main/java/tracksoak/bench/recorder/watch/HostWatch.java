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
}
