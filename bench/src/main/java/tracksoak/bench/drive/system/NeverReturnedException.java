package tracksoak.bench.drive.system;

import java.io.IOException;

/**
 * A simulated drive's way of saying that the call would never come back. It has moved its virtual clock on by the hang
 * limit. A real drive never throws it: there a watchdog gives the call up.
 */
public final class NeverReturnedException extends IOException {

    public NeverReturnedException(String what) {
        super(what);
    }
}
