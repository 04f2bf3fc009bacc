package tracksoak.bench.standin;

import java.nio.ByteBuffer;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.standin.trace.Asked;

/** A request on its way. Confined to the thread that serves. */
final class Request {

    final Asked asked;
    final boolean throughout;
    final long handle;
    final long offset;
    final long length;

    /** What is to be written, or has been read. */
    @Nullable
    ByteBuffer data;

    /** The protocol's number for what is wrong; 0 for nothing. */
    int error;

    long arrivedNs;
    long startedNs;
    long doneNs;

    Request(Asked asked, boolean throughout, long handle, long offset, long length) {
        this.asked = asked;
        this.throughout = throughout;
        this.handle = handle;
        this.offset = offset;
        this.length = length;
    }
}
