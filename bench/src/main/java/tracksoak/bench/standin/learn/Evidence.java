package tracksoak.bench.standin.learn;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import tracksoak.bench.standin.trace.Asked;
import tracksoak.bench.standin.trace.Entry;
import tracksoak.bench.standin.trace.Note;
import tracksoak.bench.standin.trace.Trace;
import tracksoak.bench.volume.ByteSource;
import tracksoak.bench.volume.VolumeFile;
import tracksoak.bench.volume.VolumeReader;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Units;

/**
 * Trace and image brought together: every write with the file it belongs to. Memory is bounded: of a longer trace the first part is
 * looked at. Confined to one thread.
 */
final class Evidence {

    /** Most pieces of audio looked at. */
    private static final int MOST_PIECES = 1_000_000;

    private static final int MOST_IN_FLIGHT = 512;
    private static final double MOST_LOST = 0.1;

    /** A stop of the drive. */
    record Stop(long atUs, long lengthUs) {
        long endUs() {
            return atUs + lengthUs;
        }

        /** By when a recorder has mostly written what waited. */
        long recoveredUs() {
            return endUs() + lengthUs / 2;
        }
    }

    private final Owners owners;
    private final Stream[] all;
    private final List<Stream> streams = new ArrayList<>();
    private final List<Stop> stops = new ArrayList<>();
    private final List<Entry> heard = new ArrayList<>();
    private final List<Entry> fellShort = new ArrayList<>();
    private final Column flushes = new Column();
    private final Column tableWrites = new Column();
    private final Column folderWrites = new Column();
    private final Deque<Entry> flying = new ArrayDeque<>();
    private final Deque<Integer> flyingOwner = new ArrayDeque<>();
    private final Trace trace;
    private int pieces;
    private int mostWriters;
    private long lastDoneUs;
    private long unknownBytes;
    private long touchedBytes;
    private long lostBytes;

    private Evidence(Path tracePath, ByteSource image) throws IOException {
        owners = new Owners(VolumeReader.read(image));
        List<VolumeFile> files = owners.volume().files();
        all = new Stream[files.size()];
        for (int i = 0; i < all.length; i++) {
            all[i] = new Stream(files.get(i));
        }
        trace = Trace.read(tracePath, this::entry);
        Belonging.mustBeAsLarge(tracePath, trace.driveBytes(), image.sizeBytes());
        for (Stream one : all) {
            one.gather(stops);
            if (!one.file().folder() && one.chunks() >= 3) {
                streams.add(one);
            }
        }
    }

    /**
     * Reads both.
     *
     * @throws tracksoak.profiles.base.Problem if one of them cannot be understood
     */
    static Evidence of(Path trace, ByteSource image) throws IOException {
        return new Evidence(trace, image);
    }

    private void entry(Entry entry) {
        if (entry.asked() == Asked.NOTE) {
            if (entry.is(Note.STOP)) {
                stops.add(new Stop(entry.arrivedUs(), entry.length()));
            } else if (entry.is(Note.HEARD_LOST) || entry.is(Note.HEARD_NONE)) {
                heard.add(entry);
            } else if (entry.is(Note.FELL_SHORT)) {
                fellShort.add(entry);
            }
            return;
        }
        if (entry.writes()) {
            owners.split(entry.offset(), entry.length(), this::touch);
        }
        if (entry.failed() || pieces > MOST_PIECES) {
            return;
        }
        if (entry.asked() == Asked.FLUSH) {
            flushes.add(entry.arrivedUs());
        } else if (entry.asked() == Asked.WRITE) {
            owners.split(
                    entry.offset(), entry.length(), (owner, position, bytes) -> part(entry, owner, position, bytes));
        }
        lastDoneUs = Math.max(lastDoneUs, entry.doneUs());
    }

    private void touch(int owner, long position, long bytes) {
        if (owner >= 0 && !all[owner].file().folder()) {
            all[owner].touch(position + bytes);
            touchedBytes += bytes;
        } else if (owner == Owners.NOBODY && touchedBytes > 0) {
            // before that a drive is formatted
            lostBytes += bytes;
        }
    }

    private void part(Entry entry, int owner, long position, long bytes) {
        if (owner == Owners.TABLE) {
            tableWrites.add(entry.arrivedUs());
        } else if (owner == Owners.NOBODY) {
            unknownBytes += bytes;
        } else if (all[owner].file().folder()) {
            folderWrites.add(entry.arrivedUs());
        } else if (all[owner].write(position, bytes, entry.arrivedUs(), entry.doneUs())) {
            pieces++;
            fly(entry, owner);
        }
    }

    private void fly(Entry entry, int owner) {
        while (!flying.isEmpty() && (flying.peek().doneUs() <= entry.arrivedUs() || flying.size() >= MOST_IN_FLIGHT)) {
            flying.remove();
            flyingOwner.remove();
        }
        flying.add(entry);
        flyingOwner.add(owner);
        Set<Integer> files = new HashSet<>(flyingOwner);
        mostWriters = Math.max(mostWriters, files.size());
    }

    Owners owners() {
        return owners;
    }

    Trace trace() {
        return trace;
    }

    /** The files that audio was added to, chunk by chunk. */
    List<Stream> streams() {
        return streams;
    }

    List<Stop> stops() {
        return stops;
    }

    /** What a person said, in order. */
    List<Entry> heard() {
        return heard;
    }

    /** When a probe missed audio in the sum of all tracks. */
    List<Entry> fellShort() {
        return fellShort;
    }

    Column flushes() {
        return flushes;
    }

    Column tableWrites() {
        return tableWrites;
    }

    Column folderWrites() {
        return folderWrites;
    }

    /** Most files with a write under way at the same time. */
    int mostWriters() {
        return mostWriters;
    }

    long lastDoneUs() {
        return lastDoneUs;
    }

    /** Bytes written to places that belong to no file in the end. */
    long unknownBytes() {
        return unknownBytes;
    }

    /** Whether the trace goes on to its end, in order: else what was done at stop is not in it. */
    boolean ended() {
        return trace.whole();
    }

    /** What makes all that is told doubtful, one sentence each; empty where all is well. */
    List<String> doubts() {
        List<String> doubts = new ArrayList<>();
        if (!ended()) {
            doubts.add("The trace has no end: it breaks off after " + Count.of(trace.entries(), "entry", "entries")
                    + ", so what the recorder did after that, above all at stop, cannot be told.");
        }
        if (trace.strayBytes() > 0) {
            doubts.add("Behind the end of the trace lie " + Count.of(trace.strayBytes(), "byte")
                    + " that belong to no entry; they were left out.");
        }
        if (lostBytes > MOST_LOST * (lostBytes + touchedBytes)) {
            doubts.add("Of " + Units.bytes(lostBytes + touchedBytes) + " that the trace wrote from the first file on, "
                    + Units.bytes(lostBytes)
                    + " lie in no file of this image: files were deleted since, or the image is of another recording.");
        }
        for (String trouble : owners.volume().contradictions()) {
            doubts.add("The file system contradicts itself: " + Inert.whole(trouble));
        }
        if (pieces > MOST_PIECES) {
            doubts.add("The trace has more than a million pieces of audio: only the first part was looked at.");
        }
        return doubts;
    }

    /** Whether all files can be known: not where the file system contradicts itself. */
    boolean filesKnown() {
        return owners.volume().contradictions().isEmpty();
    }
}
