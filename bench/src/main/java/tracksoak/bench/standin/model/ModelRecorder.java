package tracksoak.bench.standin.model;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.standin.VirtualStandIn;
import tracksoak.bench.standin.model.ModelVolume.ModelFile;
import tracksoak.bench.standin.model.RecorderModel.Overrun;
import tracksoak.bench.standin.trace.Asked;
import tracksoak.profiles.base.VirtualClock;

/**
 * Records to a stand-in on virtual time, as its model says. A chunk takes a place in the buffer when its first sample comes, and gives
 * it back when it is on the drive; one that finds none is lost whole. Used by one thread.
 */
public final class ModelRecorder {

    private static final double NS = 1e9;
    private static final long PAUSE_NS = 8_000_000_000L;
    private static final int HEADER = 44;

    private final RecorderModel model;
    private final Audio audio;
    private final VirtualClock clock;
    private final VirtualStandIn drive;
    private final ModelVolume volume;
    private final double chunkNs;
    private final List<Track> tracks = new ArrayList<>();
    private long takeNs;
    private long flushDueNs;
    private long headerDueNs;
    private int turn;
    private int takes;
    private int sharedUsed;
    private long lostChunks;
    private boolean overrun;

    /** What is recorded. */
    @FunctionalInterface
    public interface Audio {

        /** The bytes of a chunk as its file holds them; null where nobody looks at them. */
        byte @Nullable [] chunk(int stream, long number);
    }

    /** One file's share of the recorder. */
    private final class Track {
        private final int number;
        private final Deque<Long> held = new ArrayDeque<>();
        private final Deque<Long> heldReadyNs = new ArrayDeque<>();
        private final Set<Long> padded = new HashSet<>();
        private long begun;
        private int used;
        private int part;
        private long missedNs;
        private ModelFile file;

        Track(int number) {
            this.number = number;
            this.file = volume.create(name());
        }

        private String name() {
            return String.format(Locale.ROOT, "A%02dT%03d%c", takes % 100, number + 1, (char) ('A' + part++ % 26));
        }

        long beginNs(long chunk) {
            double phase = model.staggered() ? (double) number / model.streams() : 0;
            return takeNs + missedNs + (long) ((chunk + phase) * chunkNs);
        }

        long readyNs() {
            Long first = heldReadyNs.peek();
            return first == null ? Long.MAX_VALUE : first;
        }

        void hold() {
            held.add(begun);
            heldReadyNs.add(beginNs(begun + 1));
        }

        long letGo() {
            heldReadyNs.remove();
            return held.remove();
        }

        /** Writes the first chunk that is held. */
        long write() {
            long chunk = held.element();
            byte[] bytes = padded.contains(chunk) ? new byte[model.chunkBytes()] : audio.chunk(number, chunk);
            return volume.append(file, model.chunkBytes(), model.advanceBytes(), bytes);
        }

        /** The first chunk that was held is on the drive. */
        void written() {
            if (!padded.remove(letGo())) {
                used--;
                sharedUsed--;
            }
        }

        void next() {
            volume.trim(file);
            file = volume.create(name());
        }
    }

    /**
     * A recorder before its first take; formats the drive.
     *
     * @param driveBytes size of the drive
     */
    public ModelRecorder(RecorderModel model, VirtualClock clock, VirtualStandIn drive, long driveBytes) {
        this(model, clock, drive, driveBytes, (stream, chunk) -> null);
    }

    /** The same, and what it records is looked at. */
    public ModelRecorder(RecorderModel model, VirtualClock clock, VirtualStandIn drive, long driveBytes, Audio audio) {
        this.model = model;
        this.audio = audio;
        this.clock = clock;
        this.drive = drive;
        this.chunkNs = model.chunkBytes() * NS / model.streamBytesPerSecond();
        this.volume = new ModelVolume(drive, driveBytes, model.fileSystem(), model.clusterBytes());
    }

    /** Records as long as {@code goOn} says so; starts again when an overrun has ended a take. Then closes the files. */
    public void record(BooleanSupplier goOn) {
        while (goOn.getAsBoolean()) {
            begin();
            while (goOn.getAsBoolean() && !(overrun && model.onOverrun() == Overrun.ENDS_THE_TAKE)) {
                step();
            }
            end();
            clock.advance(PAUSE_NS);
        }
        volume.finish();
        drive.ask(Asked.FLUSH, 0, 0, null);
    }

    /** Chunks lost so far. */
    public long lostChunks() {
        return lostChunks;
    }

    private void begin() {
        takes++;
        overrun = false;
        sharedUsed = 0;
        takeNs = clock.nanoTime();
        flushDueNs = takeNs + (long) (model.flushS() * NS);
        headerDueNs = takeNs + (long) (model.headerS() * NS);
        tracks.clear();
        for (int i = 0; i < model.streams(); i++) {
            tracks.add(new Track(i));
        }
    }

    /** Does what is next: up to {@code writers} chunks that are ready, upkeep that is due, or waiting. */
    private void step() {
        long nowNs = clock.nanoTime();
        if (model.headerS() > 0 && nowNs >= headerDueNs) {
            headerDueNs += (long) (model.headerS() * NS);
            upkeep();
            return;
        }
        if (model.flushS() > 0 && nowNs >= flushDueNs) {
            flushDueNs += (long) (model.flushS() * NS);
            waitFor(drive.ask(Asked.FLUSH, 0, 0, null));
            return;
        }
        beginChunks(nowNs);
        long done = nowNs;
        List<Track> written = new ArrayList<>();
        for (int i = 0; i < tracks.size() && written.size() < model.writers(); i++) {
            Track track = tracks.get((turn + i) % tracks.size());
            if (track.readyNs() <= nowNs) {
                written.add(track);
            }
        }
        for (Track track : written) {
            if (track.file.bytes() + model.chunkBytes() > model.fileLimitBytes()) {
                track.next();
            }
            done = Math.max(done, track.write());
            turn = (track.number + 1) % tracks.size();
        }
        if (written.isEmpty()) {
            clock.waitUntil(nextNs());
            return;
        }
        beginChunks(done); // while the drive was busy the buffer went on filling
        clock.waitUntil(done);
        for (Track track : written) {
            track.written();
        }
    }

    private long nextNs() {
        long next = Long.MAX_VALUE;
        for (Track track : tracks) {
            next = Math.min(next, Math.min(track.readyNs(), track.beginNs(track.begun)));
        }
        if (model.flushS() > 0) {
            next = Math.min(next, flushDueNs);
        }
        return model.headerS() > 0 ? Math.min(next, headerDueNs) : next;
    }

    /** Gives places to the chunks that began until then; those that find none are lost. */
    private void beginChunks(long untilNs) {
        while (true) {
            Track first = tracks.get(0);
            for (Track track : tracks) {
                if (track.beginNs(track.begun) < first.beginNs(first.begun)) {
                    first = track;
                }
            }
            if (first.beginNs(first.begun) > untilNs) {
                return;
            }
            boolean full = model.shared() ? sharedUsed >= model.bufferChunks() : first.used >= model.bufferChunks();
            if (full) {
                lostChunks++;
                overrun = true;
                if (model.onOverrun() == Overrun.CUTS) {
                    first.missedNs += untilNs + 1 - first.beginNs(first.begun);
                    continue;
                }
                if (model.onOverrun() == Overrun.PADS) {
                    first.hold();
                    first.padded.add(first.begun);
                }
            } else {
                first.hold();
                first.used++;
                sharedUsed++;
            }
            first.begun++;
        }
    }

    private void upkeep() {
        long done = clock.nanoTime();
        for (Track track : tracks) {
            if (track.file.bytes() > 0) {
                done = Math.max(done, volume.header(track.file, header(track.file)));
                done = Math.max(done, volume.entry(track.file));
            }
        }
        waitFor(done);
    }

    private void waitFor(long done) {
        beginChunks(done);
        clock.waitUntil(done);
    }

    /** Writes what is still held and whole, the headers and the folder. */
    private void end() {
        for (Track track : tracks) {
            while (track.readyNs() <= clock.nanoTime()) {
                clock.waitUntil(track.write());
                track.letGo();
            }
            if (track.file.bytes() > 0) {
                clock.waitUntil(volume.header(track.file, header(track.file)));
                clock.waitUntil(volume.entry(track.file));
            }
            volume.trim(track.file);
        }
        clock.waitUntil(drive.ask(Asked.FLUSH, 0, 0, null));
    }

    private byte[] header(ModelFile file) {
        int frame = model.bytesPerSample() * (model.interleaved() ? model.tracks() : 1);
        return ByteBuffer.allocate(HEADER)
                .order(ByteOrder.LITTLE_ENDIAN)
                .put("RIFF".getBytes(StandardCharsets.US_ASCII))
                .putInt((int) file.bytes() - 8)
                .put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII))
                .putInt(16)
                .putShort((short) 1)
                .putShort((short) (model.interleaved() ? model.tracks() : 1))
                .putInt(model.sampleRateHz())
                .putInt(model.sampleRateHz() * frame)
                .putShort((short) frame)
                .putShort((short) (8 * model.bytesPerSample()))
                .put("data".getBytes(StandardCharsets.US_ASCII))
                .putInt((int) file.bytes() - HEADER)
                .array();
    }
}
