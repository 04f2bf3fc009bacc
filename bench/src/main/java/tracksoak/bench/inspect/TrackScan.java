package tracksoak.bench.inspect;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.LongConsumer;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.SampleFile;
import tracksoak.bench.recording.Samples;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.bench.timecode.SignalProbe;
import tracksoak.bench.timecode.SignalTracker;
import tracksoak.report.record.facts.inspection.Finding.Weight;
import tracksoak.report.record.facts.inspection.FindingKind;

/**
 * Reads the samples of one track, or of tracks that share files, once, and tells what is wrong inside them. Memory does not grow with
 * their length. One thread.
 */
final class TrackScan {

    /** Bytes looked at a time: few enough to stay near the processor until all have looked at them. */
    private static final int BLOCK = 128 << 10;

    private static final int PAGE = 4096;

    private static final int MOST_UNREADABLE = 64;

    /** So many stretches that a player of loops or a gate makes as well are listened to; more are the music's own. */
    private static final int FEW = 4;

    /** Samples of a block that are looked at for timecode. */
    private static final int GLANCE = 32;

    private static final double BESIDE_SIGNAL_S = 0.01;

    private final TrackLine line;
    private final LongConsumer read;
    private final BooleanSupplier stop;
    private final WaveFormat format;
    private final List<Found> found = new ArrayList<>();
    private final List<Dropout> placed = new ArrayList<>();
    private final List<BorderZeros> atBorders = new ArrayList<>();
    private final ByteBuffer own;
    private final ByteBuffer ahead;
    /** What is looked at: read here, or ahead. */
    private ByteBuffer block;

    private float[] values = {};
    private final float[] glance = new float[GLANCE];
    private final LateSignal[] late;
    private final int framesAtOnce;
    private final List<ScannedTrack> tracks = new ArrayList<>();

    private long base;
    private long quietBytes;
    private long lookedBytes;
    private int unreadableInARow;
    private long unreadableFrom = -1;
    private long unreadableUntil;
    private String unreadableFile = "";

    /**
     * @param room from {@link #room}, of use to one scan at a time
     * @param read told of every byte that was read
     * @param stop asked between blocks
     */
    TrackScan(TrackLine line, ByteBuffer room, LongConsumer read, BooleanSupplier stop) {
        this.line = line;
        this.read = read;
        this.stop = stop;
        format = line.format();
        framesAtOnce = Math.max(8, BLOCK / format.frameBytes() & ~7);
        late = new LateSignal[format.channels()];
        own = room.slice(0, framesAtOnce * format.frameBytes()).order(ByteOrder.LITTLE_ENDIAN);
        ahead = room.slice(BLOCK, ReadAhead.ROOM);
        block = own;
    }

    /** Memory to read into. */
    static ByteBuffer room() {
        return ByteBuffer.allocateDirect(BLOCK + ReadAhead.ROOM + PAGE).alignedSlice(PAGE);
    }

    /** What is wrong inside the samples. */
    List<Found> found() {
        return found;
    }

    /** Zeros at the ends of its files, from the first sample of all on; where a gate or a mute makes such silence inside as well, none is torn. */
    List<BorderZeros> atBorders() {
        boolean habit = placed.stream()
                .anyMatch(dropout -> dropout.kind() == FindingKind.ZEROS && dropout.weight() == Weight.NOTE);
        return habit ? atBorders.stream().map(BorderZeros::whole).toList() : atBorders;
    }

    /** Reads all. */
    List<ScannedTrack> scan() {
        for (int channel = 0; channel < format.channels(); channel++) {
            SignalProbe.Carries carries = probe(channel);
            tracks.add(new ScannedTrack(
                    line.name(channel),
                    carries,
                    carries == SignalProbe.Carries.TEST_SIGNAL
                            ? new SignalTracker(format.sampleRateHz(), format.step())
                            : null));
        }
        for (RecordedFile file : line.inTime()) {
            if (!file.header().format().equals(format)) {
                break;
            }
            try (SampleFile open = SampleFile.open(file)) {
                file(open, file);
            } catch (IOException refused) {
                unreadable(file, 0, file.samples());
            }
            base += file.samples();
            if (stop.getAsBoolean()) {
                break;
            }
        }
        boolean nothing = lookedBytes > 0
                && quietBytes >= lookedBytes - 7L * line.inTime().size();
        for (ScannedTrack track : tracks) {
            track.end(nothing, lookedBytes > 0 && format.channels() > 1);
        }
        tellUnreadable();
        tellDropouts();
        seams();
        return tracks;
    }

    /** Where neither times nor the signal tell whether splits follow each other, the audio may. */
    private void seams() {
        if (TrackLine.timed(line.track())) {
            return;
        }
        for (int channel = 0; channel < tracks.size(); channel++) {
            seams(channel);
        }
    }

    private void seams(int channel) {
        List<Long> jumps = new ArrayList<>();
        boolean disordered = false;
        long at = 0;
        for (int i = 1; i < line.inTime().size(); i++) {
            RecordedFile first = line.inTime().get(i - 1);
            RecordedFile second = line.inTime().get(i);
            at += first.samples();
            if (isSignal(channel, at, 0)) {
                continue;
            }
            try (SampleFile before = SampleFile.open(first);
                    SampleFile after = SampleFile.open(second)) {
                if (after.format().equals(format) && Seam.jumps(before, after, channel)) {
                    jumps.add(at);
                    // a note may begin right there, but then the end of the second does not lead to the beginning of
                    // the first
                    disordered |= Seam.shows(second, first);
                }
            } catch (IOException refused) {
                // the pass over all of it has said so
            }
        }
        Weight weight = disordered ? Weight.FAULT : Weight.LISTEN;
        for (long jump : jumps) {
            found.add(line.found(FindingKind.SEAM, weight, line.name(channel), jump, 0, ""));
        }
    }

    private SignalProbe.Carries probe(int channel) {
        SignalProbe.Carries best = SignalProbe.Carries.NOTHING_OF_IT;
        for (RecordedFile file : line.inTime()) {
            try (SampleFile open = SampleFile.open(file)) {
                SignalProbe.Carries here = SignalProbe.of(
                        open.format().sampleRateHz(),
                        open.samples(),
                        (from, count) -> open.values(channel, from, count));
                best = here.compareTo(best) > 0 ? here : best;
            } catch (IOException refused) {
                // the pass over all of it says so
                continue;
            }
            if (best == SignalProbe.Carries.TEST_SIGNAL) {
                return best;
            }
        }
        return best;
    }

    private void file(SampleFile file, RecordedFile recorded) throws IOException {
        DropoutCheck check = new DropoutCheck(file);
        boolean one = format.channels() == 1;
        for (int channel = 0; channel < late.length; channel++) {
            late[channel] = new LateSignal(file, channel, base);
        }
        List<Candidate> candidates = new ArrayList<>();
        RawScan scan = new RawScan(format, new RawScan.Found() {
            @Override
            public void zeros(long from, long until) {
                quietBytes += until - from;
                keep(candidates, new Candidate(FindingKind.ZEROS, -1, from, until, 0));
            }

            @Override
            public void erased(long from, long until) {
                quietBytes += until - from;
                keep(candidates, new Candidate(FindingKind.ERASED, -1, from, until, 0));
            }

            @Override
            public void repeat(long from, long until, long distance) {
                keep(candidates, new Candidate(FindingKind.REPEATED_BLOCK, -1, from, until, distance));
            }
        });
        ChannelZeros zeros = new ChannelZeros(
                format,
                (channel, from, until) -> keep(candidates, new Candidate(FindingKind.ZEROS, channel, from, until, 0)));
        try (Blocks blocks = new Blocks(file, recorded)) {
            for (long at = 0; at < file.samples() && !stop.getAsBoolean(); ) {
                int frames = blocks.next(at);
                if (frames == 0) {
                    break;
                }
                // in place of what cannot be read stands silence that nobody recorded
                boolean readable = unreadableUntil <= base + at;
                if (readable) {
                    scan.block(block, frames * format.frameBytes(), at * format.frameBytes());
                    lookedBytes += (long) frames * format.frameBytes();
                    if (!one) {
                        zeros.block(block, frames, at);
                    }
                }
                if (format.isFloat()) {
                    numbers(frames, at);
                }
                glance(file, frames, at);
                track(frames);
                at += frames;
                look(candidates, check);
            }
        }
        scan.end();
        zeros.end(file.samples());
        for (int channel = 0; channel < tracks.size() && !one; channel++) {
            tracks.get(channel).sounds(zeros.sounds(channel));
        }
        look(candidates, check);
        check.dropouts().forEach(this::place);
        check.atBorders().forEach(silence -> atBorders.add(silence.behind(base)));
        shifted(file, recorded);
    }

    /** A place to be looked at again. */
    private record Candidate(FindingKind kind, int channel, long from, long until, long distance) {}

    private static void keep(List<Candidate> candidates, Candidate one) {
        if (candidates.size() < 4096) {
            candidates.add(one);
        }
    }

    private void look(List<Candidate> candidates, DropoutCheck check) throws IOException {
        for (Candidate one : candidates) {
            try {
                look(one, check);
            } catch (IOException refused) {
                if (unreadableUntil <= base) {
                    throw refused;
                }
                // it lies beside what the drive refuses, which is told
            }
        }
        candidates.clear();
    }

    private static void look(Candidate one, DropoutCheck check) throws IOException {
        if (one.kind() == FindingKind.REPEATED_BLOCK) {
            check.repeat(one.from(), one.until(), one.distance());
        } else if (one.kind() == FindingKind.ERASED) {
            check.erased(one.from(), one.until());
        } else if (one.channel() < 0) {
            check.zeros(one.from(), one.until());
        } else {
            check.zerosOf(one.channel(), one.from(), one.until());
        }
    }

    private void place(Dropout dropout) {
        placed.add(new Dropout(
                dropout.kind(), dropout.channel(), base + dropout.from(), dropout.length(), dropout.weight()));
    }

    private void shifted(SampleFile file, RecordedFile recorded) throws IOException {
        if (recorded.header().brokenBytes() > 0) {
            ShiftedSamples.firstWrong(file)
                    .ifPresent(wrong -> found.add(Found.at(
                                    FindingKind.SHIFTED,
                                    Weight.FAULT,
                                    line.name(),
                                    line.place(base + wrong),
                                    (double) (file.samples() - wrong),
                                    false)
                            .with(recorded.path())));
        }
    }

    /** The samples of one file, from the first on. */
    private final class Blocks implements AutoCloseable {

        private final SampleFile file;
        private final RecordedFile recorded;
        private @Nullable ReadAhead reader;

        Blocks(SampleFile file, RecordedFile recorded) {
            this.file = file;
            this.recorded = recorded;
            reader = file.samples() * format.frameBytes() < ReadAhead.LEAST
                    ? null
                    : new ReadAhead(recorded, ahead, own.capacity(), stop);
        }

        /** Puts the next in the block, and says how many whole samples there are; none where all is to end. */
        int next(long at) {
            int frame = format.frameBytes();
            ReadAhead from = reader;
            ByteBuffer next = from == null ? null : from.next(own.capacity());
            if (next != null && next.remaining() >= frame) {
                block = next;
                unreadableInARow = 0;
                read.accept((long) (next.remaining() / frame) * frame);
                return next.remaining() / frame;
            }
            close();
            block = own;
            return stop.getAsBoolean()
                    ? 0
                    : frames(file, recorded, at, (int) Math.min(framesAtOnce, file.samples() - at));
        }

        @Override
        public void close() {
            if (reader != null) {
                reader.close();
                reader = null;
            }
        }
    }

    /** Reads whole samples; those that cannot be read are told, and zeros stand in their place. */
    private int frames(SampleFile file, RecordedFile recorded, long at, int wanted) {
        int frame = format.frameBytes();
        block.clear().limit(wanted * frame);
        long offset = file.dataAt() + at * frame;
        try {
            while (block.hasRemaining() && file.bytes().read(block, offset + block.position()) > 0) {
                // goes on until it is full or the file ends
            }
            unreadableInARow = 0;
        } catch (IOException refused) {
            if (++unreadableInARow > MOST_UNREADABLE) {
                unreadable(recorded, at, file.samples() - at);
                return 0;
            }
            int good = block.position() / frame;
            if (good == 0) {
                int skipped = Math.min(wanted, Math.max(8, 4096 / frame & ~7));
                unreadable(recorded, at, skipped);
                for (int i = 0; i < skipped * frame; i++) {
                    block.put(i, (byte) format.silentWord());
                }
                return skipped;
            }
            block.position(good * frame);
        }
        int frames = block.position() / frame;
        read.accept((long) frames * frame);
        return frames;
    }

    private void unreadable(RecordedFile recorded, long at, long samples) {
        long from = base + at;
        if (unreadableFrom < 0 || unreadableUntil != from) {
            tellUnreadable();
            unreadableFrom = from;
            unreadableFile = recorded.path();
        }
        unreadableUntil = from + samples;
    }

    private void tellUnreadable() {
        if (unreadableFrom >= 0) {
            double samples = (double) (unreadableUntil - unreadableFrom);
            found.add(line.found(
                    FindingKind.UNREADABLE, Weight.FAULT, line.name(), unreadableFrom, samples, unreadableFile));
            unreadableFrom = -1;
        }
    }

    /** Samples that are no number, or endless. */
    private void numbers(int frames, long at) {
        int bytes = format.bytesPerSample();
        int count = frames * format.channels();
        for (int i = allNumbers(count * bytes / 8) ? count * bytes / 8 * 8 / bytes : 0; i < count; i++) {
            boolean number = bytes == 4
                    ? (block.getInt(4 * i) & 0x7F80_0000) != 0x7F80_0000
                    : (block.getLong(8 * i) & 0x7FF0_0000_0000_0000L) != 0x7FF0_0000_0000_0000L;
            if (!number) {
                tracks.get(i % format.channels()).noNumber(base + at + i / format.channels());
            }
        }
    }

    /** Looks at one or two numbers at once: what is none has all bits of its exponent set, and one more would run over into the sign. */
    private boolean allNumbers(int values) {
        boolean two = format.bytesPerSample() == 4;
        long exponent = two ? 0x7F80_0000_7F80_0000L : 0x7FF0_0000_0000_0000L;
        long oneMore = two ? 0x0080_0000_0080_0000L : 0x0010_0000_0000_0000L;
        long sign = two ? 0x8000_0000_8000_0000L : Long.MIN_VALUE;
        long any = 0;
        for (int i = 0; i < values; i++) {
            any |= (block.getLong(8 * i) & exponent) + oneMore;
        }
        return (any & sign) == 0;
    }

    /** The test signal may begin anywhere, and last for seconds only. */
    private void glance(SampleFile file, int frames, long at) {
        for (int channel = 0; channel < tracks.size(); channel++) {
            ScannedTrack track = tracks.get(channel);
            if (track.tracker() == null && late[channel].due(at) && frames >= GLANCE) {
                int apart = Math.max(1, Math.min(frames / GLANCE, format.sampleRateHz() / 2_000));
                for (int i = 0; i < GLANCE; i++) {
                    int place = i * apart * format.frameBytes() + channel * format.bytesPerSample();
                    glance[i] = Samples.one(block, place, format);
                }
                late[channel].look(track, SignalProbe.flat(glance), at, samples(file, channel, frames, at));
            }
        }
    }

    /** Samples of one track: out of what was read, if they are there, else out of the file. */
    private SignalProbe.Track samples(SampleFile file, int channel, int frames, long at) {
        return (from, count) -> {
            if (from < at || from + count > at + frames) {
                return file.values(channel, from, count);
            }
            int begin = (int) (from - at) * format.frameBytes();
            ByteBuffer bytes = block.slice(begin, count * format.frameBytes()).order(ByteOrder.LITTLE_ENDIAN);
            float[] here = new float[count];
            Samples.of(bytes, count, format, channel, here);
            return here;
        };
    }

    private void track(int frames) {
        for (int channel = 0; channel < tracks.size(); channel++) {
            SignalTracker tracker = tracks.get(channel).tracker();
            if (tracker != null) {
                values = values.length == 0 ? new float[framesAtOnce] : values;
                Samples.of(block, frames, format, channel, values);
                tracker.feed(values, frames);
            }
        }
    }

    private void tellDropouts() {
        for (int channel = -1; channel < tracks.size(); channel++) {
            int of = channel;
            List<Dropout> own = placed.stream()
                    .filter(dropout -> dropout.channel() == of && !isSignal(dropout))
                    .toList();
            long doubtful = own.stream()
                    .filter(dropout -> dropout.weight() == Weight.LISTEN)
                    .count();
            Dropout longest = null;
            for (Dropout dropout : own) {
                boolean habit = dropout.weight() == Weight.LISTEN && doubtful > FEW;
                if (dropout.weight() == Weight.NOTE || habit) {
                    longest = longest == null || dropout.length() > longest.length() ? dropout : longest;
                } else {
                    tell(dropout, dropout.weight(), "");
                }
            }
            if (longest != null) {
                long notes = own.size()
                        - own.stream().filter(d -> d.weight() == Weight.FAULT).count();
                tell(longest, Weight.NOTE, Long.toString(notes));
            }
        }
        for (ScannedTrack track : tracks) {
            track.tellNumbers(line).ifPresent(found::add);
        }
    }

    /** Where the signal is it tells more than what is there does. */
    private boolean isSignal(int channel, long from, long length) {
        long beside = (long) (BESIDE_SIGNAL_S * format.sampleRateHz());
        return tracks.get(channel).isSignal(from, from + length, beside);
    }

    private boolean isSignal(Dropout dropout) {
        int channel = dropout.channel();
        for (int one = Math.max(0, channel); one <= (channel < 0 ? tracks.size() - 1 : channel); one++) {
            if (!isSignal(one, dropout.from(), dropout.length())) {
                return false;
            }
        }
        return true;
    }

    private void tell(Dropout dropout, Weight weight, String detail) {
        boolean one = dropout.channel() < 0;
        for (int channel = one ? 0 : dropout.channel();
                channel <= (one ? tracks.size() - 1 : dropout.channel());
                channel++) {
            if (!isSignal(channel, dropout.from(), dropout.length())) {
                double samples = (double) dropout.length();
                found.add(line.found(dropout.kind(), weight, line.name(channel), dropout.from(), samples, detail));
            }
        }
    }
}
