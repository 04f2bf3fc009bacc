package tracksoak.bench.recorder.watch;

/** Tells a writer that came back too late that nobody waits for it any more. */
public final class AbandonedException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /** Makes one without a trace: it is not a fault of the program. */
    public AbandonedException() {
        super("the run has given this call up", null, false, false);
    }
}
