package tracksoak.bench.standin.learn;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import tracksoak.bench.recording.UnreadableWave;
import tracksoak.bench.recording.VolumeBytes;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.bench.recording.WaveHeaderReader;
import tracksoak.bench.standin.learn.Evidence.Stop;
import tracksoak.bench.volume.ByteSource;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;

/** Learns how a recorder writes. Confined to one thread. */
public final class Learner {

    private static final double DRAWN_PERIODS = 4;
    private static final double DRAWN_LEAST_S = 2;
    private static final double REGULAR = 0.5;

    private final Evidence evidence;
    private final List<Stream> together;
    private final Stream typical;
    private final List<Stream> last;
    private final List<Learned> all = new ArrayList<>();
    private final ByteSource image;
    private final int clusterBytes;
    private final long firstUs;
    private final long lastUs;

    private Learner(Path trace, ByteSource image) throws IOException {
        this.image = image;
        evidence = Evidence.of(trace, image);
        together = Succession.together(evidence.streams());
        if (together.isEmpty()) {
            throw new Problem(
                    Problem.Kind.REFUSED,
                    "Nothing can be learnt from this trace",
                    Inert.quoted(trace),
                    "no file on the image was written chunk by chunk while it ran"
                            + (evidence.unknownBytes() > 0
                                    ? "; " + Units.bytes(evidence.unknownBytes())
                                            + " went to places that belong to no file"
                                    : ""),
                    "record for a minute or more, stop, let the recorder unmount the drive, then learn from that trace");
        }
        if (evidence.ended()) {
            Belonging.mustHoldWhatWasWritten(trace, image, together);
        }
        typical = together.get(together.size() / 2);
        List<Stream> take = Succession.take(evidence.streams(), together);
        firstUs = take.stream().mapToLong(one -> one.arrivedUs(0)).min().orElse(0);
        lastUs = take.stream()
                .mapToLong(one -> one.doneUs(one.chunks() - 1))
                .max()
                .orElse(0);
        last = take.stream()
                .filter(one -> one.doneUs(one.chunks() - 1) > lastUs - 3 * one.periodUs())
                .toList();
        clusterBytes = evidence.owners().volume().clusterBytes();
    }

    /**
     * Learns from a trace and the image that was recorded to.
     *
     * @throws Problem if one of them cannot be understood, or nothing was recorded
     * @throws IOException if the image cannot be read
     */
    public static Pattern learn(Path trace, ByteSource image) throws IOException {
        return new Learner(trace, image).pattern();
    }

    private Pattern pattern() throws IOException {
        Optional<WaveFormat> format = format();
        double bytesPerSecond =
                together.stream().mapToDouble(Stream::bytesPerSecond).sum();
        tellOfFiles(Habit.FILES, Count.number(together.size()), "So many grew side by side in the trace.");
        format.ifPresentOrElse(
                found -> tellOfFiles(
                        Habit.TRACKS,
                        Count.number((long) together.size() * found.channels()) + " at " + found.words(),
                        "The header of " + Inert.quoted(typical.file().path()) + " says so, and "
                                + Count.of(together.size(), "file")
                                + (together.size() == 1 ? " grew." : " grew at once.")),
                () -> tell(Habit.TRACKS, Learned.UNKNOWN, "The files have no header that can be read."));
        tellOfFiles(
                Habit.DEMAND,
                bytesPerSecond > 0 ? Units.rate(bytesPerSecond) : Learned.UNKNOWN,
                "Chunk and time between chunks of all files, added up.");
        OptionalLong chunk = chunk();
        ArrivalLook look = new ArrivalLook(together, evidence.stops());
        Optional<Arrival> arrival = look.arrival();
        tell(
                Habit.ARRIVAL,
                arrival.map(one -> one == Arrival.BURST ? "all at once" : "spread evenly")
                        .orElse(Learned.UNKNOWN),
                arrival.isPresent()
                        ? "Told by when within a round each file is written."
                        : "There is one file, or the recording is too short.");
        Optional<Boolean> order = look.sameOrder();
        tell(
                Habit.ORDER,
                order.map(same -> same ? "the same each round" : "changes from round to round")
                        .orElse(Learned.UNKNOWN),
                order.isPresent() ? "Told by the order of their chunks in the trace." : "There is nothing to compare.");
        tell(
                Habit.WRITERS,
                "at least " + evidence.mostWriters(),
                evidence.stops().isEmpty()
                        ? "Most files with a write unanswered at the same time; a drive that answers at once hides more. A probe"
                                + " shows it exactly."
                        : "Most files with a write unanswered at the same time, also while the drive stopped.");
        OptionalDouble flush = flush();
        OptionalDouble header = header();
        OptionalDouble folder = tables();
        OptionalLong advance = advance();
        OptionalLong limit = Succession.limit(evidence.streams());
        tell(
                Habit.LARGEST,
                limit.isPresent() ? Units.bytes(limit.getAsLong()) : Learned.UNKNOWN,
                limit.isPresent()
                        ? "Files of that length were followed at once by the next."
                        : "No file became full while the trace ran.");
        stopped();
        tell(
                Habit.FILE_SYSTEM,
                TradeName.of(evidence.owners().volume().fileSystem()) + ", clusters of " + Units.bytes(clusterBytes),
                "The image's own tables say so.");
        return new Pattern(
                together.size(),
                format,
                bytesPerSecond,
                chunk,
                arrival,
                order,
                Math.max(1, evidence.mostWriters()),
                flush,
                header,
                folder,
                advance,
                limit,
                headersAtStop(),
                evidence.owners().volume().fileSystem(),
                clusterBytes,
                all,
                evidence.filesKnown(),
                evidence.doubts(),
                drawing(),
                evidence.trace().sha256(),
                evidence.trace().startEpochMs());
    }

    /** Tells what every file counts for: nothing does where a file may be missing. */
    private void tellOfFiles(Habit habit, String value, String sentence) {
        if (evidence.filesKnown() || value.equals(Learned.UNKNOWN)) {
            tell(habit, value, sentence);
        } else {
            tell(
                    habit,
                    Learned.UNKNOWN,
                    value
                            + " by the files that can be read; as the file system contradicts itself, some may be missing.");
        }
    }

    private void tell(Habit habit, String value, String sentence) {
        all.add(new Learned(habit, value, sentence));
    }

    private Optional<WaveFormat> format() throws IOException {
        try (VolumeBytes bytes = new VolumeBytes(image, typical.file())) {
            return Optional.of(WaveHeaderReader.read(bytes).format());
        } catch (UnreadableWave none) {
            return Optional.empty();
        }
    }

    private OptionalLong chunk() {
        boolean told = typical.regular() >= REGULAR && typical.periodUs() > 0;
        tell(
                Habit.CHUNK,
                told ? Units.bytes(typical.chunkBytes()) : Learned.UNKNOWN,
                Math.round(100 * typical.regular()) + " % of the pieces that "
                        + Inert.quoted(typical.file().path())
                        + " grew by were of that size"
                        + (told ? ", one every " + Units.ms(typical.periodUs() / 1e3) + "." : "."));
        return told ? OptionalLong.of(typical.chunkBytes()) : OptionalLong.empty();
    }

    private OptionalDouble flush() {
        Column during = during(evidence.flushes());
        return repeated(
                Habit.FLUSH,
                everyS(during),
                during,
                Count.of(evidence.flushes().size(), "flush", "flushes") + " in the trace.");
    }

    private OptionalDouble header() {
        Column rewrites = typical.rewrites();
        // others may still be written when this one is finished
        long endUs = typical.doneUs(typical.chunks() - 1);
        Column during = during(rewrites, endUs);
        return repeated(
                Habit.HEADERS,
                everyS(during, typical.arrivedUs(0), endUs),
                during,
                "The beginning of " + Inert.quoted(typical.file().path()) + " was written again "
                        + Count.of(rewrites.size(), "time") + ".");
    }

    /** Tells how often something came; 0 where it never did while audio was written. */
    private OptionalDouble repeated(Habit habit, OptionalDouble every, Column during, String sentence) {
        boolean none = during.isEmpty();
        tell(
                habit,
                every.isPresent()
                        ? "every " + Units.seconds(every.getAsDouble())
                        : none ? notBefore() : Learned.UNKNOWN,
                sentence + whyUntold(every, during));
        return every.isPresent() ? every : none ? OptionalDouble.of(0) : OptionalDouble.empty();
    }

    private String whyUntold(OptionalDouble every, Column during) {
        return every.isPresent() || during.isEmpty()
                ? ""
                : evidence.stops().isEmpty()
                        ? " Too few while audio was written, or only for a part of that time, to tell how often."
                        : " Too few came clear of the stops, or after unlike pauses, to tell how often.";
    }

    private String notBefore() {
        return evidence.ended() ? "only at the end" : "not before the trace breaks off";
    }

    /** Those while audio was written: before and after it a drive is formatted, read, and written to by others. */
    private Column during(Column times) {
        return during(times, lastUs);
    }

    private Column during(Column times, long untilUs) {
        Column during = new Column();
        for (int i = 0; i < times.size(); i++) {
            if (times.get(i) > firstUs && times.get(i) < untilUs) {
                during.add(times.get(i));
            }
        }
        return during;
    }

    /** How often; empty where it was only for a part of the time. */
    private OptionalDouble everyS(Column during) {
        return everyS(during, firstUs, lastUs);
    }

    private OptionalDouble everyS(Column during, long fromUs, long untilUs) {
        boolean throughout = !during.isEmpty() && 2 * (during.last() - during.get(0)) >= untilUs - fromUs;
        return throughout ? Rounds.everyS(during, evidence.stops()) : OptionalDouble.empty();
    }

    private OptionalDouble tables() {
        OptionalDouble every = everyS(during(evidence.folderWrites()));
        String counts = Count.of(evidence.tableWrites().size(), "write") + " to tables, "
                + Count.of(evidence.folderWrites().size(), "write") + " to folders";
        tell(
                Habit.TABLES,
                every.isPresent() ? "folders every " + Units.seconds(every.getAsDouble()) : Learned.UNKNOWN,
                counts + " in the trace.");
        return every;
    }

    private OptionalLong advance() {
        OptionalLong advance = SpaceLook.advanceBytes(together, clusterBytes);
        // as long as the files themselves: the space was not used up
        boolean whole = together.stream().anyMatch(one -> one.file().allocatedBytes() == advance.orElse(0));
        tell(
                Habit.SPACE,
                advance.isEmpty()
                        ? Learned.UNKNOWN
                        : advance.getAsLong() == 0
                                ? "none"
                                : (whole ? "at least " : "") + Units.bytes(advance.getAsLong()) + " at a time",
                advance.isEmpty()
                        ? "With one file at a time its clusters lie side by side either way."
                        : advance.getAsLong() == 0
                                ? "The clusters of the files lie in turn, as they were needed."
                                : "The clusters of a file lie side by side although the files were written in turn.");
        return advance;
    }

    private long headersAtStop() {
        long headers = 0;
        for (Stream one : last) {
            for (int i = 0; i < one.rewrites().size(); i++) {
                headers += one.rewrites().get(i) >= one.arrivedUs(one.chunks() - 1) ? 1 : 0;
            }
        }
        return headers;
    }

    private void stopped() {
        if (!evidence.ended()) {
            tell(Habit.STOP, Learned.UNKNOWN, "The trace breaks off before the recorder stopped, or while it did.");
            return;
        }
        double afterS = (evidence.lastDoneUs() - lastUs) / 1e6;
        tell(
                Habit.STOP,
                Count.of(headersAtStop(), "header write") + " after the last audio",
                "The last request was answered " + Units.seconds(Math.max(0, afterS)) + " after it.");
    }

    private Drawing drawing() {
        Stream first = together.get(0);
        int chunk = Math.min(first.chunks() - 1, first.chunks() / 2);
        double from = first.arrivedUs(Math.max(0, chunk - 2)) - first.periodUs() * 0.2;
        double length = Math.max(DRAWN_LEAST_S * 1e6, DRAWN_PERIODS * first.periodUs());
        List<Drawing.Mark> marks = new ArrayList<>();
        for (int file = 0; file < together.size(); file++) {
            Stream one = together.get(file);
            for (int i = 0; i < one.chunks(); i++) {
                mark(marks, file, "audio", one.arrivedUs(i), one.doneUs(i), from, length);
            }
            moments(marks, file, "header", one.rewrites(), from, length);
        }
        moments(marks, -1, "table", evidence.tableWrites(), from, length);
        moments(marks, -1, "flush", evidence.flushes(), from, length);
        for (Stop stop : evidence.stops()) {
            mark(marks, -1, "stop", stop.atUs(), stop.endUs(), from, length);
        }
        return new Drawing(
                from / 1e6,
                length / 1e6,
                together.stream().map(one -> one.file().path()).toList(),
                marks);
    }

    private static void moments(
            List<Drawing.Mark> marks, int file, String kind, Column timesUs, double fromUs, double lengthUs) {
        for (int i = 0; i < timesUs.size(); i++) {
            mark(marks, file, kind, timesUs.get(i), timesUs.get(i), fromUs, lengthUs);
        }
    }

    private static void mark(
            List<Drawing.Mark> marks, int file, String kind, long atUs, long doneUs, double fromUs, double lengthUs) {
        if (atUs >= fromUs && atUs <= fromUs + lengthUs && marks.size() < Drawing.MOST) {
            marks.add(new Drawing.Mark(file, kind, (atUs - fromUs) / 1e6, (doneUs - atUs) / 1e6));
        }
    }
}
