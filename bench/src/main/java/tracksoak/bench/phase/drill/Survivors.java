package tracksoak.bench.phase.drill;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import java.util.Set;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.Drive.Presence;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.stream.AlignedBuffer;
import tracksoak.bench.stream.BlockChecker;
import tracksoak.bench.stream.BlockState;
import tracksoak.bench.stream.PatternHeader;
import tracksoak.bench.stream.Stamp;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.profiles.base.NanoClock;
import tracksoak.report.record.facts.drill.DrillFile.Use;

/** Reads what is left of a run's files after its drive was pulled. One thread; {@link #bytes} may be asked by another. */
final class Survivors {

    private static final int PIECE = 1 << 20;

    private final Drive drive;
    private final BlockChecker checker;
    private final NanoClock clock;
    private final int unit;
    private final ByteBuffer buffer;
    private final List<Found> found = new ArrayList<>();
    private final AtomicLong bytes = new AtomicLong();
    private volatile long worstNs;

    Survivors(Drive drive, long runNumber, NanoClock clock) {
        this.drive = drive;
        this.clock = clock;
        this.checker = new BlockChecker(runNumber, drive.keepsBodies());
        this.unit = drive.alignmentBytes();
        this.buffer = AlignedBuffer.allocate(Math.max(PIECE, unit), unit);
    }

    /**
     * One file as it was found.
     *
     * @param written what it should hold
     * @param size as the file system tells, null if the name is gone
     * @param headerBytes as its header tells, null if that tells none
     * @param readable good data from its beginning on without a gap, in bytes
     * @param later good data behind the first gap, in bytes
     */
    record Found(
            WrittenFile written,
            @Nullable Long size,
            @Nullable Long headerBytes,
            long readable,
            long later) {

        Use use() {
            if (size == null) {
                return Use.GONE;
            }
            if (readable == 0) {
                return Use.EMPTY;
            }
            return headerBytes != null && headerBytes > 0 && readable >= headerBytes ? Use.OPENS : Use.REPAIR;
        }

        /** Whether all that was written, or more, is there without a gap. */
        boolean whole() {
            return readable >= written.dataBytes();
        }
    }

    /** All files read so far. */
    List<Found> found() {
        return List.copyOf(found);
    }

    /** Bytes read so far. */
    long bytes() {
        return bytes.get();
    }

    /** Longest read so far, in ns. */
    long worstNs() {
        return worstNs;
    }

    /** Reads them all, in order. */
    void read(List<WrittenFile> files, BooleanSupplier stop) throws IOException {
        Set<String> names = Set.copyOf(drive.list());
        for (WrittenFile file : files) {
            if (stop.getAsBoolean()) {
                return;
            }
            found.add(names.contains(file.name()) ? look(file, stop) : new Found(file, null, null, 0, 0));
        }
    }

    private Found look(WrittenFile file, BooleanSupplier stop) throws IOException {
        try (DriveFile open = drive.open(file.name())) {
            long size = open.size();
            long[] good = {0, 0};
            boolean gap = false;
            for (long at = file.headerBytes(); at < size && !stop.getAsBoolean(); ) {
                int wanted = (int) Math.min(buffer.capacity(), size - at);
                int got = fetch(open, at, wanted);
                for (int offset = 0; offset < got; offset += Stamp.BLOCK) {
                    long number = file.firstBlock() + (at + offset - file.headerBytes()) / Stamp.BLOCK;
                    boolean sound = offset + Stamp.BLOCK <= got
                            && checker.check(buffer, offset, file.stream(), file.pass(), number) == BlockState.GOOD;
                    gap |= !sound;
                    good[gap ? 1 : 0] += sound ? Stamp.BLOCK : 0;
                }
                gap |= got < wanted;
                at += got > 0 ? got : Math.min(unit, wanted);
            }
            return new Found(file, size, header(open), good[0], good[1]);
        }
    }

    private @Nullable Long header(DriveFile open) throws IOException {
        int got = fetch(open, 0, unit);
        buffer.position(0).limit(Math.max(0, got));
        OptionalLong told = PatternHeader.dataBytes(buffer);
        return told.isPresent() ? (Long) told.getAsLong() : null;
    }

    /** Bytes read, 0 if that cannot be read: then the caller goes on behind the next unit. */
    private int fetch(DriveFile open, long position, int wanted) throws IOException {
        long called = clock.nanoTime();
        int got = 0;
        for (int length = wanted; got == 0 && length > 0; length = length > unit ? unit : 0) {
            buffer.clear().limit(roundUp(length));
            try {
                got = Math.min(length, open.read(buffer, position));
            } catch (IOException unreadable) {
                if (drive.presence() == Presence.GONE) {
                    throw unreadable;
                }
                got = 0;
            }
        }
        bytes.addAndGet(got);
        worstNs = Math.max(worstNs, clock.nanoTime() - called);
        return got;
    }

    private int roundUp(int length) {
        return (length + unit - 1) / unit * unit;
    }
}
