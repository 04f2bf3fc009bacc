package tracksoak.bench.phase.run;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.Drive.Counters;
import tracksoak.bench.drive.io.Drive.Presence;
import tracksoak.bench.drive.io.Drive.Spreading;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.stream.AlignedBuffer;
import tracksoak.bench.stream.BlockChecker;
import tracksoak.bench.stream.BlockState;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.bench.stream.Stamp;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.KebabCase;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ProbeFacts;

/**
 * Stamped blocks laid over all the free room before anything else is written, and read at the end: a drive that has less room
 * than it claims has lost some of them by then, or what the takes wrote lies in their place. All in one file, block k at k
 * strides.
 */
final class Probes {

    private static final String NAME = "probes.soak";
    private static final String BETWEEN = "between-probes.soak";
    private static final int PASS = 9;
    private static final int LEAST = 64;
    private static final int MOST = 32_768;

    /** So many there are at least, and so many are laid from end to end before those between them: a drive too slow for all is looked at everywhere. */
    private static final int FIRST = 1024;

    /** Room they take at most where each takes a cluster: so many bytes, on a large drive such a part of it. */
    private static final long MOST_ROOM = 64L << 20;

    private static final int MOST_PART = 4096;

    /** The room they take is at most this part of what is free, however little that is. */
    private static final int LEAST_PART = 64;

    /** What stays free of it where the reserve is larger: the blocks are to reach into the reserve too, in bytes. */
    private static final long SLACK = 64L << 20;

    private static final long LARGEST_FILE = 2L << 30;

    /** A slow drive gets fewer of them, in ns. */
    private static final long PATIENCE_NS = TimeUnit.SECONDS.toNanos(60);

    private final Bench bench;
    private final Drive drive;
    private final ChunkStamper stamper;
    private final BitSet laid = new BitSet();
    private long span;
    private long reach;
    private long strideBytes;
    private int blocksEach = 1;

    Probes(Bench bench) {
        this.bench = bench;
        this.drive = bench.drive;
        this.stamper = new ChunkStamper(
                bench.runNumber,
                bench.request.seed(),
                drive.keepsBodies(),
                Math.max(Stamp.BLOCK, drive.roomUnitBytes()),
                drive.alignmentBytes());
    }

    /** Lays them; a phase only if the drive fails. */
    @Nullable
    PhaseFacts lay() {
        if (drive.spreading() == Spreading.NONE) {
            bench.probes = new ProbeFacts(0, 0, drive.spreadingReason());
            return null;
        }
        PhaseFacts failed = bench.ask(PhaseKind.PROBES, this::layAll);
        if (failed == null) {
            bench.probes = new ProbeFacts(laid.cardinality(), reach, laid.isEmpty() ? "there is no room" : "");
        }
        return failed;
    }

    private void layAll(BooleanSupplier stop) throws IOException {
        boolean steered = drive.spreading() == Spreading.STEERED;
        if (steered) {
            drive.steer(Double.MIN_VALUE);
        }
        try {
            span = drive.usableBytes() - Math.min(SLACK, bench.request.reserveBytes());
            int wanted = wanted();
            if (wanted > 0) {
                lay(wanted, stop);
            }
        } finally {
            if (steered) {
                drive.steer(0);
            }
        }
    }

    private void lay(int wanted, BooleanSupplier stop) throws IOException {
        long untilNs = bench.clock.nanoTime() + PATIENCE_NS;
        BooleanSupplier over = () -> stop.getAsBoolean() || bench.clock.nanoTime() > untilNs;
        try (DriveFile file = drive.create(NAME)) {
            switch (drive.spreading()) {
                case STEERED -> steered(file, wanted);
                case SPARSE -> sparse(file, wanted, over);
                case IN_TURN, IN_TURN_BY_LENGTH -> inTurn(file, wanted, over);
                case NONE -> {}
            }
            file.flush(true);
        }
        drive.syncFolder();
    }

    /**
     * So many that a take of the plan is longer than the room between two: on a drive whose addresses wrap, one of them then
     * lies where the take was written.
     */
    private int wanted() {
        boolean wholeClusters =
                drive.spreading() == Spreading.IN_TURN || drive.spreading() == Spreading.IN_TURN_BY_LENGTH;
        long room = Math.max(0, Math.min(wholeClusters ? mostRoom(span) : Long.MAX_VALUE, span / LEAST_PART));
        long most = room / drive.spreadingUnitBytes();
        return most < LEAST ? 0 : (int) Math.min(wanted(bench.request.session(), bench.request.plan(), span), most);
    }

    private static long wanted(Session session, Plan plan, long span) {
        double seconds = Math.max(Math.max(plan.takeBeforeS(), plan.takeAfterS()), plan.copyS());
        double written = Math.max(1, seconds * (double) session.bytesPerSecond());
        return (long) Math.min(MOST, Math.max(FIRST, 1.5 * (double) span / written));
    }

    /** Room they take at most where so much is free and each takes a cluster, in bytes. */
    private static long mostRoom(long freeBytes) {
        return Math.max(MOST_ROOM, freeBytes / MOST_PART);
    }

    /** What is written for them at most where so much is free, in bytes. */
    static long mostBytes(Session session, Plan plan, long freeBytes) {
        return plan.readsBack() && !plan.wholeSpace()
                ? Math.max(mostRoom(freeBytes), wanted(session, plan, freeBytes) * Stamp.BLOCK)
                : 0;
    }

    private void steered(DriveFile file, int wanted) throws IOException {
        strideBytes = drive.spreadingUnitBytes();
        for (int probe = 0; probe < wanted; probe++) {
            drive.steer((probe + 1.0) / (wanted + 1));
            write(file, probe);
        }
        reach = span;
    }

    private void sparse(DriveFile file, int wanted, BooleanSupplier over) throws IOException {
        int unit = drive.roomUnitBytes();
        strideBytes = span / wanted / unit * unit;
        if (!file.extend(strideBytes * wanted)) {
            return;
        }
        int step = Math.max(1, wanted / FIRST);
        for (int probe = 0; step > 1 && probe < wanted && !over.getAsBoolean(); probe += step) {
            write(file, probe);
        }
        int behind = 0;
        for (int probe = 0; probe < wanted && !over.getAsBoolean(); probe++) {
            if (!laid.get(probe)) {
                write(file, probe);
            }
            // others may need the room
            giveBack(file, behind, probe, unit);
            behind = probe;
        }
        reach = laid.length() * strideBytes;
        file.trim(reach);
        for (int probe = behind; probe >= 0 && probe < laid.length(); probe = laid.nextSetBit(probe + 1)) {
            int next = laid.nextSetBit(probe + 1);
            giveBack(file, probe, next < 0 ? laid.length() : next, unit);
        }
    }

    /** What lies between a block and the place of another; only what lies before the end of a file can be given back. */
    private void giveBack(DriveFile file, int block, int next, int unit) throws IOException {
        if (next > block) {
            file.giveBack(block * strideBytes + unit, (next - block) * strideBytes - unit);
        }
    }

    private void inTurn(DriveFile file, int wanted, BooleanSupplier over) throws IOException {
        int unit = drive.roomUnitBytes();
        strideBytes = unit;
        blocksEach = unit / Stamp.BLOCK;
        long startNs = bench.clock.nanoTime();
        try (Between filler = new Between()) {
            boolean given = true;
            for (int probe = 0; given && probe < wanted && !over.getAsBoolean(); probe++) {
                write(file, probe);
                reach += unit;
                double eachNs = (double) (bench.clock.nanoTime() - startNs) / (probe + 1);
                double more = Math.max(1, Math.min(wanted - probe, PATIENCE_NS / eachNs - probe));
                long between = (long) ((span - reach) / more) / unit * unit;
                given = filler.take(between);
                reach += between;
            }
        }
    }

    /** Takes the room between two blocks away while they are laid, in files that are deleted at the end. */
    private final class Between implements AutoCloseable {

        private int files;
        private @Nullable DriveFile open;
        private long length;

        /** Takes the next so many bytes; false if there is no more. */
        boolean take(long bytes) throws IOException {
            long left = bytes;
            while (left > 0) {
                DriveFile filler = open;
                if (filler == null || length >= LARGEST_FILE) {
                    filler = next();
                }
                long piece = Math.min(left, LARGEST_FILE - length);
                length += piece;
                left -= piece;
                boolean byLength = drive.spreading() == Spreading.IN_TURN_BY_LENGTH;
                if (!(byLength ? filler.lengthen(length) : filler.extend(length))) {
                    return false;
                }
            }
            return true;
        }

        private DriveFile next() throws IOException {
            closeOpen();
            length = 0;
            DriveFile made = drive.create(files + 1 + "-" + BETWEEN);
            files++;
            open = made;
            return made;
        }

        private void closeOpen() throws IOException {
            DriveFile closing = open;
            open = null;
            if (closing != null) {
                closing.close();
            }
        }

        @Override
        public void close() throws IOException {
            try {
                closeOpen();
            } finally {
                for (int each = files; each > 0; each--) {
                    drive.delete(each + "-" + BETWEEN);
                }
            }
        }
    }

    private void write(DriveFile file, int probe) throws IOException {
        file.write(stamper.stamp(0, PASS, (long) probe * blocksEach, blocksEach * Stamp.BLOCK), probe * strideBytes);
        laid.set(probe);
    }

    /** Reads them again; null where none were laid. */
    @Nullable
    PhaseFacts read() {
        if (laid.isEmpty()) {
            return null;
        }
        PhaseFacts.Builder notes = bench.notes(PhaseKind.PROBES);
        Optional<Counters> before = drive.counters();
        long startNs = bench.clock.nanoTime();
        BlockTally tally = new BlockTally((long) laid.cardinality() * blocksEach);
        WatchedExecutor.Outcome outcome = bench.executor.work(List.of(stop -> readAll(stop, tally)), () -> {});
        long bytes = (long) laid.cardinality() * blocksEach * Stamp.BLOCK;
        notes.seconds((bench.clock.nanoTime() - startNs) / 1e9);
        notes.bytes(bytes);
        notes.operations(laid.cardinality());
        notes.complete(outcome.done());
        notes.fault(bench.fault(outcome, startNs, bytes));
        DeviceEvidence evidence = bench.evidence(before, bytes);
        notes.device(evidence);
        notes.readBack(tally.facts(ReadOrigin.origin(bench, evidence, bytes)));
        return notes.build();
    }

    private void readAll(BooleanSupplier stop, BlockTally tally) throws IOException {
        drive.forgetCached();
        BlockChecker checker = new BlockChecker(bench.runNumber, drive.keepsBodies());
        ByteBuffer buffer = AlignedBuffer.allocate(blocksEach * Stamp.BLOCK, drive.alignmentBytes());
        try (DriveFile file = drive.open(NAME)) {
            for (int probe = laid.nextSetBit(0);
                    probe >= 0 && !stop.getAsBoolean();
                    probe = laid.nextSetBit(probe + 1)) {
                try {
                    int got = file.read(buffer.clear(), probe * strideBytes);
                    check(tally, checker, buffer, probe, got);
                } catch (IOException e) {
                    if (drive.presence() == Presence.GONE) {
                        throw e;
                    }
                    tally.countUnreadable(blocksEach);
                }
            }
        }
    }

    private void check(BlockTally tally, BlockChecker checker, ByteBuffer buffer, int probe, int got) {
        for (int block = 0; block < blocksEach; block++) {
            int at = block * Stamp.BLOCK;
            BlockState state = at + Stamp.BLOCK > got
                    ? BlockState.MISSING
                    : checker.check(buffer, at, 0, PASS, (long) probe * blocksEach + block);
            tally.count(state);
            if (state != BlockState.GOOD && tally.wantsExamples()) {
                tally.example("probe " + laid.get(0, probe + 1).cardinality() + " of " + laid.cardinality()
                        + ", laid over " + Units.bytes(reach) + ", is " + KebabCase.of(state));
            }
        }
    }
}
