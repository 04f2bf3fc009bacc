package tracksoak.bench.standin;

import java.io.IOException;
import java.nio.ByteBuffer;
import tracksoak.bench.standin.trace.Asked;

/** How a stand-in behaves: how long it takes, what it refuses, what it makes of the bytes. Used by one thread. */
interface Manner {

    /** A call that never comes back. */
    long NEVER = Long.MAX_VALUE;

    /** A plain good drive: as fast as this computer, and honest. */
    Manner GOOD = new Manner() {};

    /**
     * How long a request takes at least, in ns; {@link #NEVER} if it does not come back.
     *
     * @param startNs when the drive turns to it, in ns since it was plugged in
     * @throws Refused if the drive refuses it
     */
    default long serviceNs(Asked asked, long startNs, long offset, long bytes) throws Refused {
        return 0;
    }

    /** Puts bytes where they belong, or where such a drive would. */
    default void write(Store image, ByteBuffer data, long offset) throws IOException {
        image.write(data, offset);
    }

    /** The bytes as such a drive shows them. */
    default void read(Store image, ByteBuffer data, long offset) throws IOException {
        image.read(data, offset);
    }

    /** Says that a request is answered with an error. */
    final class Refused extends Exception {
        private static final long serialVersionUID = 1L;

        final int error;
        final long afterNs;
        final boolean gone;

        /**
         * @param error the protocol's number for it
         * @param afterNs how long that takes
         * @param gone whether the drive is gone from now on
         */
        Refused(int error, long afterNs, boolean gone) {
            super("refused with error " + error, null, false, false);
            this.error = error;
            this.afterNs = afterNs;
            this.gone = gone;
        }
    }
}
