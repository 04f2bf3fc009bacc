package tracksoak.bench.standin;

import tracksoak.bench.standin.trace.Entry;

/** Sees every entry of the trace as it is written. Called by the thread that serves; must be quick. */
@FunctionalInterface
public interface RequestWatch {

    /** Looks away. */
    RequestWatch NONE = entry -> {};

    /** A request was answered, or something was noted. */
    void answered(Entry entry);
}
