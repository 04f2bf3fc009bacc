package tracksoak.report.roster.web.server;

import java.util.HashMap;
import java.util.Map;

/** Memory for large bodies and answers under way: so much in all, and so much for one client. Any thread. */
final class MemoryShare {

    private final long mostBytes;
    private final long mostBytesOfOne;
    private final Map<String, Long> held = new HashMap<>();
    private long heldBytes;

    MemoryShare(long mostBytes, long mostBytesOfOne) {
        this.mostBytes = mostBytes;
        this.mostBytesOfOne = mostBytesOfOne;
    }

    /** Takes so many bytes; false where they are not to be had now. */
    synchronized boolean take(String client, long bytes) {
        if (bytes == 0) {
            return true;
        }
        long ofOne = held.getOrDefault(client, 0L) + bytes;
        if (heldBytes + bytes > mostBytes || ofOne > mostBytesOfOne) {
            return false;
        }
        held.put(client, ofOne);
        heldBytes += bytes;
        return true;
    }

    /** Gives back what was taken. */
    synchronized void giveBack(String client, long bytes) {
        heldBytes -= bytes;
        held.computeIfPresent(client, (key, ofOne) -> ofOne <= bytes ? null : ofOne - bytes);
    }
}
