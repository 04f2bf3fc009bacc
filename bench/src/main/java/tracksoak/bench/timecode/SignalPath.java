package tracksoak.bench.timecode;

/** A way of following the test signal once it is found. One thread. */
interface SignalPath {

    /** Not found yet. */
    SignalPath NONE = new SignalPath() {};

    /** A frame of it was read. */
    default void frame(FrameSeen seen) {}

    /** No further frame was read up to this sample. */
    default void waited(long now) {}

    /** The track ends at this sample. */
    default void ends(long end) {}

    /** First sample that is part of the signal. */
    default long from() {
        return 0;
    }

    /** The sample after the last that is part of it. */
    default long until() {
        return 0;
    }

    /** Place in the signal at {@link #from}. */
    default double signalAtFrom() {
        return 0;
    }

    /** Takes what is found. */
    @FunctionalInterface
    interface Broken {
        void at(SignalBreak one);
    }
}
