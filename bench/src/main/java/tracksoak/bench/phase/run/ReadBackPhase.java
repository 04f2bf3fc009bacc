package tracksoak.bench.phase.run;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import org.HdrHistogram.Histogram;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.Drive.Counters;
import tracksoak.bench.drive.io.Drive.Presence;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.recorder.loop.Histograms;
import tracksoak.bench.recorder.loop.SecondSeries;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.recorder.watch.AbandonedException;
import tracksoak.bench.stream.AlignedBuffer;
import tracksoak.bench.stream.BlockChecker;
import tracksoak.bench.stream.BlockState;
import tracksoak.bench.stream.Stamp;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.Latencies;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/** Reads every block back from the device and sorts what comes. */
final class ReadBackPhase {

    private static final int PIECE = 1 << 20;

    /** Until then its own rate tells little of what is left, in s. */
    private static final double LEAST_SEEN_S = 1;

    /** So many unreadable units in a row end the phase: the drive has stopped answering. */
    private static final int MOST_UNREADABLE_IN_A_ROW = 256;

    private final Bench bench;
    private final Drive drive;
    private final PhaseFacts.Builder notes;
    private final List<WrittenFile> files;
    private final boolean ofAnotherRun;
    private final BlockChecker checker;
    private final ByteBuffer buffer;
    private final Histogram service = Histograms.nanoseconds();
    private final BlockTally tally;
    private final int unit;
    private final SecondSeries series = new SecondSeries(600);
    private long startNs;
    private long bytes;
    private long operations;
    private int unreadableInARow;
    private long worstNs;
    private boolean abandoned;

    ReadBackPhase(Bench bench, List<WrittenFile> files) {
        this(bench, bench.drive, bench.runNumber, files, bench.notes(PhaseKind.READ_BACK));
    }

    /**
     * Files of another run.
     *
     * @param drive reaches the folder they lie in
     * @param run the run that wrote them, as its stamps carry it
     * @param notes to be filled in
     */
    ReadBackPhase(Bench bench, Drive drive, long run, List<WrittenFile> files, PhaseFacts.Builder notes) {
        this.bench = bench;
        this.drive = drive;
        this.notes = notes;
        this.ofAnotherRun = run != bench.runNumber;
        this.files = List.copyOf(files);
        this.tally =
                new BlockTally(files.stream().mapToLong(WrittenFile::blocks).sum());
        this.checker = new BlockChecker(run, bench.drive.keepsBodies());
        this.unit = bench.drive.alignmentBytes();
        this.buffer = AlignedBuffer.allocate(Math.max(PIECE, unit), unit);
    }

    PhaseFacts read() {
        Optional<Counters> before = bench.drive.counters();
        startNs = bench.clock.nanoTime();
        WatchedExecutor.Outcome outcome = bench.executor.work(
                List.of(this::readAll),
                () -> bench.tell(this::now, () -> {
                    note(null);
                    return notes.build();
                }));
        synchronized (this) {
            abandoned = true;
        }
        notes.complete(outcome.done());
        notes.fault(bench.fault(outcome, startNs, bytes));
        DeviceEvidence evidence = bench.evidence(before, bytes);
        notes.device(evidence);
        note(evidence);
        return notes.build();
    }

    private void readAll(BooleanSupplier stop) throws IOException {
        drive.forgetCached();
        for (WrittenFile file : files) {
            if (stop.getAsBoolean()) {
                return;
            }
            readFile(file, stop);
        }
    }

    private void readFile(WrittenFile file, BooleanSupplier stop) throws IOException {
        try (DriveFile open = drive.open(file.name())) {
            long at = 0;
            long end = ofAnotherRun ? lengthToRead(open, file) : file.dataBytes();
            while (at < end && !stop.getAsBoolean()) {
                int wanted = (int) Math.min(buffer.capacity(), end - at);
                readPiece(open, file, at, wanted);
                at += wanted;
            }
        }
    }

    /** A file that lay there for days may have been cut short by anybody: what is cut off is not read, and so not bad. */
    private long lengthToRead(DriveFile open, WrittenFile file) throws IOException {
        long there = Math.max(0, open.size() - file.headerBytes()) / Stamp.BLOCK * Stamp.BLOCK;
        if (there >= file.dataBytes()) {
            return file.dataBytes();
        }
        synchronized (this) {
            if (tally.wantsExamples()) {
                tally.example(
                        file.name() + " ends after " + Units.bytes(there) + " of " + Units.bytes(file.dataBytes()));
            }
        }
        return there;
    }

    private void readPiece(DriveFile open, WrittenFile file, long at, int wanted) throws IOException {
        try {
            check(file, at, wanted, fetch(open, file.headerBytes() + at, wanted));
        } catch (IOException wholePiece) {
            for (int part = 0; part < wanted; part += unit) {
                int length = Math.min(unit, wanted - part);
                try {
                    check(file, at + part, length, fetch(open, file.headerBytes() + at + part, length));
                } catch (IOException e) {
                    cannotRead(file, at + part, length, e);
                }
            }
        }
    }

    private int fetch(DriveFile open, long position, int wanted) throws IOException {
        buffer.clear().limit(StreamTable.roundUp(wanted, unit));
        long called = bench.clock.nanoTime();
        int got = Math.min(wanted, open.read(buffer, position));
        long done = bench.clock.nanoTime();
        synchronized (this) {
            if (abandoned) {
                throw new AbandonedException();
            }
            service.recordValue(Math.min(done - called, service.getHighestTrackableValue()));
            series.call(called - startNs, done - startNs, got);
            worstNs = Math.max(worstNs, done - called);
            bytes += got;
            operations++;
        }
        return got;
    }

    private synchronized void check(WrittenFile file, long at, int wanted, int got) {
        unreadableInARow = 0;
        for (int offset = 0; offset < wanted; offset += Stamp.BLOCK) {
            long number = file.firstBlock() + (at + offset) / Stamp.BLOCK;
            BlockState state = offset + Stamp.BLOCK > got
                    ? BlockState.MISSING
                    : checker.check(buffer, offset, file.stream(), file.pass(), number);
            tally.count(state);
            if (state != BlockState.GOOD && tally.wantsExamples()) {
                tally.example(place(file, number) + found(state, offset));
            }
        }
    }

    private String found(BlockState state, int offset) {
        buffer.clear();
        return switch (state) {
            case MISSING -> " holds nothing";
            case STALE -> " holds a block of an earlier run or pass";
            case MISPLACED -> " holds " + BlockChecker.claim(buffer, offset);
            case FLIPPED -> " is damaged: its checksum does not fit";
            case GOOD -> " is as written";
        };
    }

    private String place(WrittenFile file, long number) {
        String where = ofAnotherRun ? file.name() + ", " : "";
        return where + "block " + number + " of stream " + (file.stream() + 1) + ", pass " + file.pass();
    }

    private synchronized void cannotRead(WrittenFile file, long at, int length, IOException why) throws IOException {
        unreadableInARow++;
        Presence presence = bench.drive.presence();
        if (presence == Presence.GONE || unreadableInARow > MOST_UNREADABLE_IN_A_ROW) {
            throw why;
        }
        tally.countUnreadable((length + Stamp.BLOCK - 1) / Stamp.BLOCK);
        if (tally.wantsExamples()) {
            long number = file.firstBlock() + at / Stamp.BLOCK;
            tally.example(place(file, number) + " cannot be read: " + why.getMessage());
        }
    }

    private synchronized Bench.Now now() {
        double elapsed = (bench.clock.nanoTime() - startNs) / 1e9;
        double more = tally.blocks() * (double) Stamp.BLOCK - bytes;
        double left = elapsed < LEAST_SEEN_S || bytes == 0 ? bench.pace.secondsToRead(more) : more * elapsed / bytes;
        return new Bench.Now(elapsed, left, elapsed, 0, 0, 0, worstNs / 1e6, 0, bytes);
    }

    private synchronized void note(@Nullable DeviceEvidence evidence) {
        notes.seconds((bench.clock.nanoTime() - startNs) / 1e9);
        notes.bytes(bytes);
        notes.operations(operations);
        notes.service(Latencies.of(service));
        notes.series(series.toSeries());
        notes.readBack(tally.facts(ReadOrigin.origin(bench, evidence, bytes)));
    }
}
