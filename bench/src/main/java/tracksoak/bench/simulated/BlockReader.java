package tracksoak.bench.simulated;

import java.nio.ByteBuffer;
import tracksoak.bench.simulated.medium.Extents;
import tracksoak.bench.stream.Stamp;

/** Makes again what the blocks of a simulated drive hold, faults included. */
final class BlockReader {

    private static final byte[] NOTHING = new byte[Stamp.BLOCK];
    private static final int FLIPPED_CRC = 0xffff_ffff;
    /** Keeps the run of an older recording apart from every run of this one. */
    private static final long OTHER_RUN = 0x5eed_0f0d_0ff5_e77dL;

    private final SimulatedDrive drive;
    private final Seen seen = new Seen();

    BlockReader(SimulatedDrive drive) {
        this.drive = drive;
    }

    /** Puts {@code blocks} blocks of a file, from block {@code at} on, at the position of {@code target}. */
    void read(FileNode node, int at, ByteBuffer target, int blocks) {
        var order = target.order();
        Stamp.ordered(target);
        int to = target.position();
        boolean honest = drive.liars().length == 0;
        for (int i = 0; i < blocks; i++) {
            if (honest) {
                show(node, at + i, target, to + i * Stamp.BLOCK);
            } else {
                look(node, at + i, target, to + i * Stamp.BLOCK);
            }
        }
        target.order(order);
    }

    private void look(FileNode node, int at, ByteBuffer target, int to) {
        int block = node.deviceBlock(at, drive.blocksPerCluster());
        seen.begin(block);
        for (Effect liar : drive.liars()) {
            liar.look(seen);
        }
        if (seen.zeros) {
            target.put(to, NOTHING);
        } else if (seen.block == block) {
            show(node, at, target, to);
        } else {
            show(drive.ownerOf(seen.block), drive.placeOf(seen.block), target, to);
        }
    }

    private void show(FileNode node, int at, ByteBuffer target, int to) {
        int entry = node.extents.find(at);
        if (entry < 0) {
            target.put(to, NOTHING);
            return;
        }
        Extents.Source source = node.extents.source(entry);
        byte[] raw = source.raw;
        if (raw != null) {
            target.put(to, seen.stale ? NOTHING : raw);
        } else {
            // An older version: the pass before, or another recording where this was the first pass.
            boolean otherRun = seen.stale && source.pass == 0;
            long run = otherRun ? source.run ^ OTHER_RUN : source.run;
            int pass = seen.stale && !otherRun ? source.pass - 1 : source.pass;
            Stamp.header(target, to, run, source.stream, pass, node.extents.number(entry, at));
        }
        if (seen.flipped) {
            target.putInt(to, raw == null ? FLIPPED_CRC : ~target.getInt(to));
        }
    }
}
