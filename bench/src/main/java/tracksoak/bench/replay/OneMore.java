package tracksoak.bench.replay;

/** Times with one more stall, at the worst moment: a drive that paused while it was filled may pause in a take as well. */
final class OneMore implements Timing {

    private final Timing inner;
    private final long fromNs;
    private long stallNs;

    /**
     * Adds a stall.
     *
     * @param fromNs the first write called then or later meets it, in ns since the take began
     */
    OneMore(Timing inner, long fromNs, long stallNs) {
        this.inner = inner;
        this.fromNs = fromNs;
        this.stallNs = stallNs;
    }

    @Override
    public long writeNs(long atNs) {
        long more = atNs >= fromNs ? stallNs : 0;
        stallNs -= more;
        return inner.writeNs(atNs + more) + more;
    }

    @Override
    public long flushNs(long atNs) {
        return inner.flushNs(atNs);
    }
}
