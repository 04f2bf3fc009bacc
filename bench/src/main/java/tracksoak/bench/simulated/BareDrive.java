package tracksoak.bench.simulated;

import java.io.IOException;
import java.util.BitSet;
import java.util.List;
import java.util.SplittableRandom;
import tracksoak.bench.drive.io.Drive.Presence;
import tracksoak.bench.simulated.Call.Kind;

/**
 * A simulated drive below any file system: how long it takes for bytes at an address, and what it shows of them. Whoever uses
 * it keeps the bytes and the time. Used by one thread.
 */
public final class BareDrive {

    /** Size of the blocks it tells lies about, in bytes. */
    public static final int BLOCK = SimulatedDrive.BLOCK;

    /** The time of a call that never comes back. */
    public static final long NEVER = Long.MAX_VALUE;

    private final DriveModel model;
    private final Effect[] effects;
    private final Effect[] liars;
    private final Call call = new Call();
    private final Seen seen = new Seen();
    private final BitSet used = new BitSet();
    private long usedClusters;
    private long lastEndNs;

    /** A new drive of this model, plugged in at 0 ns. */
    public BareDrive(DriveModel model) {
        this.model = model;
        SplittableRandom random = new SplittableRandom(model.seed());
        effects = model.behaviours().stream()
                .map(behaviour -> behaviour.start(random.split()))
                .toArray(Effect[]::new);
        liars = List.of(effects).stream().filter(Effect::lies).toArray(Effect[]::new);
        usedClusters = model.usedClusters();
        call.capacityBytes = model.capacityBytes();
    }

    /**
     * How long a call takes; {@link #presence} tells the state of the drive after it.
     *
     * @param kind a write, read or flush
     * @param startNs when it begins, in ns since the drive was plugged in
     * @return ns, or {@link #NEVER}
     * @throws IOException if the drive refuses it; {@link #refusedAfterNs} then says after how long
     */
    public long serviceNs(Kind kind, long startNs, long address, int bytes) throws IOException {
        call.begin(kind, startNs, lastEndNs);
        call.address = address;
        call.bytes = bytes;
        call.fragments = 1;
        call.files = 1;
        if (kind == Kind.WRITE) {
            use(address, bytes);
        }
        call.usedBytes = usedClusters * model.clusterBytes();
        try {
            for (Effect effect : effects) {
                effect.shape(call);
            }
        } finally {
            lastEndNs = startNs + call.serviceNs;
        }
        call.writtenBytes += kind == Kind.WRITE ? bytes : 0;
        return call.never ? NEVER : call.serviceNs;
    }

    private void use(long address, int bytes) {
        int from = Math.toIntExact(address / model.clusterBytes());
        int to = Math.toIntExact((address + bytes + model.clusterBytes() - 1) / model.clusterBytes());
        for (int cluster = used.nextClearBit(from); cluster < to; cluster = used.nextClearBit(cluster)) {
            used.set(cluster);
            call.newClusters++;
            usedClusters++;
        }
    }

    /** How long the last call took until it was refused, in ns. */
    public long refusedAfterNs() {
        return call.serviceNs;
    }

    /** Whether it is there, there for reading only, or gone. */
    public Presence presence() {
        return call.presence;
    }

    /** Whether it ever shows something else than was written. */
    public boolean lies() {
        return liars.length > 0;
    }

    /** Tells it that {@code blocks} blocks were written from block {@code first} on. */
    public void wrote(int first, int blocks) {
        for (Effect liar : liars) {
            liar.wrote(first, blocks, 0, blocks);
        }
    }

    /**
     * What it shows of a block.
     *
     * @param block the one shown, or another in its place
     * @param zeros nothing but zeros
     * @param flipped one bit is wrong
     * @param stale what lay there before the last write
     */
    public record Shown(int block, boolean zeros, boolean flipped, boolean stale) {}

    /** What it shows of a block now. */
    public Shown look(int block) {
        seen.begin(block);
        for (Effect liar : liars) {
            liar.look(seen);
        }
        return new Shown(seen.block, seen.zeros, seen.flipped, seen.stale);
    }
}
