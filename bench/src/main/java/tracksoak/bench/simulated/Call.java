package tracksoak.bench.simulated;

import java.io.IOException;
import tracksoak.bench.drive.io.Drive.Presence;

/**
 * One call to a simulated drive on its way through the drive's behaviours, with what they may know of the drive. Reused
 * for every call, so that nothing is allocated. All times in ns of virtual time.
 */
public final class Call {

    /** What is asked of the drive. */
    public enum Kind {
        WRITE,
        /** A file is given room ahead of what is written to it. */
        EXTEND,
        READ,
        FLUSH,
        CREATE,
        OPEN,
        CLOSE,
        DELETE,
        SYNC_FOLDER
    }

    /** Longest time of a call, in ns: 24 h. What behaviours add beyond is cut off, so that products keep in range. */
    static final long LONGEST_NS = 86_400_000_000_000L;

    Kind kind = Kind.OPEN;
    long startNs;
    long idleNs;
    long address;
    int bytes;
    boolean metadata;
    int newClusters;
    int fragments;
    int files;
    long writtenBytes;
    long usedBytes;
    long capacityBytes;
    long serviceNs;
    boolean never;
    Presence presence = Presence.PRESENT;

    Call() {}

    void begin(Kind newKind, long nowNs, long lastEndNs) {
        kind = newKind;
        startNs = nowNs;
        idleNs = nowNs - lastEndNs;
        address = 0;
        bytes = 0;
        metadata = false;
        newClusters = 0;
        fragments = 0;
        serviceNs = 0;
    }

    /** What is asked. */
    public Kind kind() {
        return kind;
    }

    /** True for a write. */
    public boolean isWrite() {
        return kind == Kind.WRITE;
    }

    /** When the call was made, in ns since the drive's clock began. */
    public long startNs() {
        return startNs;
    }

    /** How long the drive had nothing to do before this call, in ns. */
    public long idleNs() {
        return idleNs;
    }

    /** Bytes to write or read, 0 for other calls. */
    public int bytes() {
        return bytes;
    }

    /** First byte on the device, for writes and reads. */
    public long address() {
        return address;
    }

    /** Whether a flush asks for metadata too. */
    public boolean metadata() {
        return metadata;
    }

    /** Clusters this write had to allocate. */
    public int newClusters() {
        return newClusters;
    }

    /** Pieces the file written to lies in. */
    public int fragments() {
        return fragments;
    }

    /** Files in the folder. */
    public int files() {
        return files;
    }

    /** Bytes written since the drive was plugged in, without this call. */
    public long writtenBytes() {
        return writtenBytes;
    }

    /** Bytes in use on the drive, with this call. */
    public long usedBytes() {
        return usedBytes;
    }

    /** Size the drive claims, in bytes. */
    public long capacityBytes() {
        return capacityBytes;
    }

    /** Time the call takes as far as the behaviours before this one say, in ns. */
    public long serviceNs() {
        return serviceNs;
    }

    /** Makes the call take {@code ns} longer. */
    public void add(long ns) {
        take(serviceNs + ns);
    }

    /** Makes the call take {@code ns} in all. */
    public void take(long ns) {
        serviceNs = ns < 0 || ns > LONGEST_NS ? LONGEST_NS : ns;
    }

    /** Makes the call never come back. */
    public void neverReturn() {
        never = true;
    }

    /** Refuses the call {@code afterNs} into it and leaves the drive in state {@code left}. */
    public void refuse(Presence left, long afterNs, String message) throws IOException {
        presence = left;
        serviceNs = afterNs;
        throw new IOException(message);
    }
}
