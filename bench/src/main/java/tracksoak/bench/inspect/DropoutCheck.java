package tracksoak.bench.inspect;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.recording.SampleFile;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.report.record.facts.inspection.Finding.Weight;
import tracksoak.report.record.facts.inspection.FindingKind;

/**
 * Tells lost audio from what music does itself: a fade, a mute, a gate, a loop. A stretch that begins and ends abruptly, and both
 * where a write begins or ends, is lost audio: music does not know where chunks lie. Reads the places again. One thread.
 */
final class DropoutCheck {

    /** Smallest piece that recorders write and file systems give, in bytes. */
    private static final int PIECE = 4096;

    /** Looked at before and behind a stretch, in samples. */
    private static final int AROUND = 256;

    private static final int EDGE = 8;
    /** Long enough that a wave which happens to cross zero right there is no fade; a fade can look the same, so only beside a piece. */
    private static final int WIDE_EDGE = 64;

    private static final double ABRUPT = 0.25;
    /** An even fade to nothing is quieter than this part right at its end. */
    private static final double FADE = 0.1;

    private static final double AUDIBLE = 2.5e-4;
    /** Audio of fewer steps than this passes exactly zero now and then, for a few samples. */
    private static final double COARSE = 1000;

    private static final int MOST_BY_CHANCE = 3;
    private static final double SHORTEST_S = 0.5e-3;
    private static final double LONGEST_SHORT_S = 0.1;
    private static final int LEAST_POWER = 256;
    private static final int MOST_ROUNDS = 8;
    private static final int LEAST_REPEAT = 1024;
    /** Fewer samples, even of many tracks, come again by chance. */
    private static final int LEAST_ONCE = 64;
    /** So many samples beside a repeat may be the same by chance. */
    private static final int BY_CHANCE = 4;

    /** Nearer repeats, in bytes, are the signal's own periods. */
    static final int NEAREST = 512;

    private static final int MOST_COMPARED = 4096;
    private static final double REPEATING = 0.75;
    private static final int MOST_LOOKED_AT = 1000;
    private static final int STEP = 1 << 15;

    private final SampleFile file;
    private final WaveFormat format;
    private final List<Dropout> dropouts = new ArrayList<>();
    private final List<BorderZeros> atBorders = new ArrayList<>();
    /** By distance, from which byte to which the last stretch was compared. */
    private final Map<Long, Compared> compared = new HashMap<>();

    private record Compared(long from, long until) {}

    private int looked;

    DropoutCheck(SampleFile file) {
        this.file = file;
        format = file.format();
    }

    /** Shorter stretches are no repeat, in bytes. */
    static int leastRepeat(WaveFormat format) {
        int frame = format.frameBytes();
        return Math.max(LEAST_REPEAT, Math.min(LEAST_ONCE * frame, PIECE - 2 * frame));
    }

    /** What was found so far. */
    List<Dropout> dropouts() {
        return dropouts;
    }

    /** Zeros from the beginning of the file, or to its end, that were found so far. */
    List<BorderZeros> atBorders() {
        return atBorders;
    }

    /** Whether so many places were looked at that no more are. */
    private boolean enough() {
        return ++looked > MOST_LOOKED_AT;
    }

    /** Zeros of all tracks between about these bytes. */
    void zeros(long fromByte, long untilByte) throws IOException {
        int frame = format.frameBytes();
        if (!atBorder(fromByte / frame, untilByte / frame) && enough()) {
            return;
        }
        long from = firstSound(fromByte / frame, -1) + 1;
        long until = firstSound(untilByte / frame, 1);
        zeros(-1, from, until, true);
    }

    /** Bits of all tracks that are all set between about these bytes: zeros as some kinds of memory have them where nothing was written. */
    void erased(long fromByte, long untilByte) throws IOException {
        int frame = format.frameBytes();
        if (!atBorder(fromByte / frame, untilByte / frame) && enough()) {
            return;
        }
        long from = nearest(fromByte / frame, -1, DropoutCheck::erased) + 1;
        long until = nearest(untilByte / frame, 1, DropoutCheck::erased);
        if (from <= 0 || until >= file.samples()) {
            atBorders.add(borderErased(from, until));
            return;
        }
        Edge before = edge(-1, from, false);
        Edge after = edge(-1, until, true);
        if (before.cut() && after.cut() && holdsPiece(from, until, 0, 0)) {
            dropouts.add(new Dropout(FindingKind.ERASED, -1, from, until - from, Weight.FAULT));
        }
    }

    private static boolean erased(ByteBuffer stored, int at, int bytes) {
        for (int i = at; i < at + bytes; i++) {
            if (stored.get(i) != -1) {
                return false;
            }
        }
        return true;
    }

    /** Zeros of one of several tracks, from about a sample up to another. */
    void zerosOf(int channel, long near, long until) throws IOException {
        if (!atBorder(near, until) && enough()) {
            return;
        }
        long from = near;
        float[] before = file.values(channel, near - ChannelZeros.STEP, ChannelZeros.STEP);
        for (int i = before.length - 1; i >= 0 && before[i] == 0; i--) {
            from--;
        }
        zeros(channel, from, until, false);
    }

    private void zeros(int channel, long from, long until, boolean chunks) throws IOException {
        long length = until - from;
        int rate = format.sampleRateHz();
        if (length < SHORTEST_S * rate) {
            return;
        }
        if (from <= 0 || until >= file.samples()) {
            atBorders.add(borderZeros(channel, from, until, chunks));
            return;
        }
        Edge before = edge(channel, from, false);
        Edge after = edge(channel, until, true);
        // a mute that fades over some samples ends in zeros as well, and desks mute where blocks of theirs begin
        boolean mayCross = before.abrupt() && after.abrupt();
        boolean piece = chunks
                && holdsPiece(
                        from, until, mayCross ? before.silentByChance() : 0, mayCross ? after.silentByChance() : 0);
        if (piece ? !before.cut() || !after.cut() : !before.abrupt() || !after.abrupt()) {
            return;
        }
        if (piece) {
            dropouts.add(new Dropout(FindingKind.ZEROS, channel, from, length, Weight.FAULT));
        } else if (before.audible() && after.audible() && length <= LONGEST_SHORT_S * rate) {
            dropouts.add(new Dropout(FindingKind.ZEROS, channel, from, length, Weight.LISTEN));
        } else {
            dropouts.add(new Dropout(FindingKind.ZEROS, channel, from, length, Weight.NOTE));
        }
    }

    /** There are few of these, so they are always looked at. */
    private boolean atBorder(long near, long until) {
        return near == 0 || until >= file.samples() - Long.BYTES;
    }

    private BorderZeros borderZeros(int channel, long from, long until, boolean chunks) throws IOException {
        boolean toTheEnd = until >= file.samples();
        if (from <= 0 && toTheEnd) {
            return new BorderZeros(FindingKind.ZEROS, channel, 0, file.samples(), true, false, false);
        }
        long border = toTheEnd ? from : until;
        Edge edge = edge(channel, border, !toTheEnd);
        boolean torn = chunks && edge.audible() && border % centisecond() != 0 && tornOff(border, toTheEnd, (byte) 0);
        return new BorderZeros(FindingKind.ZEROS, channel, from, until, toTheEnd, edge.hard(), torn);
    }

    /** No mute makes these, so it does not matter when it begins or ends. */
    private BorderZeros borderErased(long from, long until) throws IOException {
        boolean toTheEnd = until >= file.samples();
        if (from <= 0 && toTheEnd) {
            return new BorderZeros(FindingKind.ERASED, -1, 0, file.samples(), true, false, false);
        }
        long border = toTheEnd ? from : until;
        boolean cut = edge(-1, border, !toTheEnd).hard();
        return new BorderZeros(
                FindingKind.ERASED, -1, from, until, toTheEnd, cut, cut && tornOff(border, toTheEnd, (byte) -1));
    }

    /** Whether such bytes begin, or end, at the very byte where a piece does, be it inside of a sample: one end says less than two. */
    private boolean tornOff(long border, boolean toTheEnd, byte with) throws IOException {
        return tornOff(border, 0, toTheEnd, with) || tornOff(border, file.dataAt(), toTheEnd, with);
    }

    private boolean tornOff(long border, long shift, boolean toTheEnd, byte with) throws IOException {
        long at = border * format.frameBytes();
        int over = (int) Math.floorMod(toTheEnd ? at + shift : -at - shift, (long) PIECE);
        if (over >= Math.min(format.frameBytes(), PIECE / 16)) {
            return false;
        }
        ByteBuffer inside = file.stored(toTheEnd ? at - over : at, over);
        while (inside.hasRemaining()) {
            if (inside.get() != with) {
                return false;
            }
        }
        return true;
    }

    private int centisecond() {
        return Math.max(1, format.sampleRateHz() / 100);
    }

    /** Whether a stretch is a piece, but for so many samples at its ends that are audio. */
    private boolean holdsPiece(long from, long until, int before, int after) {
        for (int i = 0; i <= before; i++) {
            for (int j = 0; j <= after; j++) {
                if (isPiece(from + i, until - j - from - i)) {
                    return true;
                }
            }
        }
        return false;
    }

    /** Whether a stretch begins and ends where pieces do, and not only because both are round times. */
    private boolean isPiece(long from, long length) {
        if (Long.bitCount(length) == 1 && length >= LEAST_POWER && from % length == 0) {
            return true;
        }
        if (from % centisecond() == 0 && length % centisecond() == 0) {
            return false;
        }
        return (liesOn(from, 0) && liesOn(from + length, 0))
                || (liesOn(from, file.dataAt()) && liesOn(from + length, file.dataAt()));
    }

    /** Whether a piece begins less than a sample before or behind that place: it may begin inside of one. */
    private boolean liesOn(long sample, long shift) {
        int frame = format.frameBytes();
        long over = Math.floorMod(sample * frame + shift, (long) PIECE);
        int slack = Math.min(frame, PIECE / 16);
        return over < slack || PIECE - over < slack;
    }

    /**
     * How the audio stands beside a stretch.
     *
     * @param abrupt whether it is as loud right beside it as further away
     * @param hard the same, or just a wave that crosses zero right there
     * @param cut the same, looked at less closely
     * @param audible whether it is abrupt and can be heard
     * @param silentByChance how many samples beside it may be silent and audio all the same
     */
    private record Edge(boolean abrupt, boolean hard, boolean cut, boolean audible, int silentByChance) {}

    private Edge edge(int channel, long at, boolean behind) throws IOException {
        boolean abrupt = false;
        boolean hard = false;
        boolean cut = false;
        boolean audible = false;
        boolean coarse = true;
        int first = Math.max(0, channel);
        int last = channel < 0 ? format.channels() - 1 : channel;
        for (int c = first; c <= last; c++) {
            float[] around = file.values(c, behind ? at : at - AROUND, AROUND);
            double power = 0;
            double peak = 0;
            double widePeak = 0;
            for (int i = 0; i < around.length; i++) {
                power += (double) around[i] * around[i];
                int away = behind ? i : around.length - 1 - i;
                peak = away < EDGE ? Math.max(peak, Math.abs(around[i])) : peak;
                widePeak = away < WIDE_EDGE ? Math.max(widePeak, Math.abs(around[i])) : widePeak;
            }
            double usual = Math.sqrt(power / Math.max(1, around.length));
            coarse &= usual < COARSE * format.step();
            double least = Math.max(4 * format.step(), ABRUPT * usual);
            abrupt |= peak >= least;
            hard |= peak >= least || widePeak >= Math.max(least, usual);
            cut |= widePeak >= least || peak >= Math.max(4 * format.step(), FADE * usual);
            audible |= peak >= least && peak >= AUDIBLE;
        }
        return new Edge(abrupt, hard, cut, audible, coarse ? MOST_BY_CHANCE : 0);
    }

    /** The nearest sample in a direction at which not all tracks are zero. */
    private long firstSound(long near, int direction) throws IOException {
        return nearest(near, direction, this::silent);
    }

    /** Whether samples of all tracks are of one kind. */
    @FunctionalInterface
    private interface Alike {
        boolean are(ByteBuffer stored, int at, int bytes);
    }

    /** The nearest sample in a direction at which not all tracks are of a kind. */
    private long nearest(long near, int direction, Alike alike) throws IOException {
        long at = near;
        int frame = format.frameBytes();
        while (at >= 0 && at < file.samples()) {
            long first = direction > 0 ? at : Math.max(0, at - AROUND + 1);
            ByteBuffer stored = file.stored(first * frame, AROUND * frame);
            int frames = (int) Math.min(stored.remaining() / frame, direction > 0 ? AROUND : at - first + 1);
            if (frames <= 0) {
                return at;
            }
            for (int i = 0; i < frames; i++) {
                int place = direction > 0 ? i : frames - 1 - i;
                if (!alike.are(stored, place * frame, frame)) {
                    return first + place;
                }
            }
            at = direction > 0 ? first + frames : first - 1;
        }
        return Math.max(-1, Math.min(at, file.samples()));
    }

    private boolean silent(ByteBuffer stored, int at, int bytes) {
        for (int i = at; i < at + bytes; i += format.bytesPerSample()) {
            if (!format.silent(stored, i)) {
                return false;
            }
        }
        return true;
    }

    /** About these bytes lie {@code distance} bytes before as well. */
    void repeat(long fromByte, long untilByte, long distance) throws IOException {
        // a loop is told of at one place after another, and is compared whole at the first
        Compared known = compared.get(distance);
        if ((known != null && fromByte >= known.from() && untilByte <= known.until())
                || untilByte - fromByte > MOST_ROUNDS * distance + (1 << 16)
                || !around(fromByte, distance)
                || enough()) {
            return;
        }
        long most = 2 * distance + (1 << 20);
        long begin = fromByte - same(fromByte, distance, -1, most);
        long run = 0;
        // what was seen again lies here and there in it: between that, all must be the same
        for (long at = begin; at < untilByte; at += STEP) {
            int count = (int) Math.min(STEP, untilByte - at);
            ByteBuffer here = file.stored(at, count);
            ByteBuffer there = file.stored(at - distance, count);
            for (int i = 0; i < here.remaining(); i++) {
                if (here.get(i) == there.get(i)) {
                    run++;
                } else {
                    equal(at + i - run, at + i, distance);
                    run = 0;
                }
            }
        }
        long end = untilByte + same(untilByte, distance, 1, most);
        equal(untilByte - run, end, distance);
        compared.put(distance, new Compared(begin, end));
    }

    /** Whether so many bytes around a place are as they were before that there may be a repeat. */
    private boolean around(long place, long distance) throws IOException {
        int least = leastRepeat(format);
        long first = Math.max(distance, place - least);
        int count = (int) (place - first) + least;
        ByteBuffer here = file.stored(first, count);
        ByteBuffer there = file.stored(first - distance, count);
        int middle = Math.min((int) (place - first), here.remaining());
        int from = middle;
        while (from > 0 && here.get(from - 1) == there.get(from - 1)) {
            from--;
        }
        int until = middle;
        while (until < here.remaining() && here.get(until) == there.get(until)) {
            until++;
        }
        return until - from >= least - 2 * format.frameBytes();
    }

    /** From one byte up to another all is as it was before. */
    private void equal(long begin, long end, long distance) throws IOException {
        if (end - begin < (long) LEAST_ONCE * format.bytesPerSample()) {
            return;
        }
        int frame = format.frameBytes();
        long from = firstSound(Math.floorDiv(begin + frame - 1, frame), 1);
        long until = firstSound(end / frame - 1, -1) + 1;
        Dropout repeated = repeated(from, until - from, distance);
        // what lies between silence is a note of a machine that plays it the same again
        boolean inside = from * frame < begin + frame && (until + 1) * frame > end;
        if (repeated == null && inside && oldBuffers(from, until - from, distance)) {
            repeated = new Dropout(FindingKind.REPEATED_BLOCK, -1, from, until - from, Weight.LISTEN);
        }
        if (repeated != null && !dropouts.contains(repeated) && !keepsRepeating(from, until - from)) {
            dropouts.add(repeated);
        }
    }

    /** Whether a stretch is a tone or a level that repeats at once anyway. */
    private boolean keepsRepeating(long from, long length) throws IOException {
        int frame = format.frameBytes();
        ByteBuffer stored = file.stored(from * frame, (int) Math.min(length * frame, MOST_COMPARED));
        int frames = stored.remaining() / frame;
        for (int period = 1; period * frame < NEAREST && 2 * period < frames; period++) {
            int same = 0;
            for (int i = period; i < frames; i++) {
                same += stored.slice(i * frame, frame).equals(stored.slice((i - period) * frame, frame)) ? 1 : 0;
            }
            if (same > REPEATING * (frames - period)) {
                return true;
            }
        }
        return false;
    }

    private @Nullable Dropout repeated(long from, long length, long distance) {
        int frame = format.frameBytes();
        long away = distance / frame;
        boolean whole = distance % frame == 0;
        if (length * frame < LEAST_REPEAT || length > MOST_ROUNDS * away) {
            return null;
        }
        boolean power = whole && Long.bitCount(away) == 1 && away >= LEAST_POWER && length >= away && from % away == 0;
        if (power || (distance % PIECE == 0 && length * frame >= PIECE - 2 * frame && isPiece(from, length))) {
            boolean loop = length >= 2 * away - BY_CHANCE || !begins(from, length, away);
            return new Dropout(FindingKind.REPEATED_BLOCK, -1, from, length, loop ? Weight.LISTEN : Weight.FAULT);
        }
        boolean once = Math.abs(length - away) <= BY_CHANCE && length >= LEAST_ONCE;
        boolean beat = length >= LONGEST_SHORT_S * format.sampleRateHz() && whole && away % centisecond() == 0;
        return once && !beat ? new Dropout(FindingKind.REPEATED_BLOCK, -1, from, length, Weight.LISTEN) : null;
    }

    /**
     * Whether it is known where a repeat begins: a loop that plays from the file's beginning on is there again as soon as it can be, wherever
     * it was begun. What is then just one block long is no loop.
     */
    private static boolean begins(long from, long length, long away) {
        return from > away + BY_CHANCE || Math.abs(length - away) <= BY_CHANCE;
    }

    /** Whether a short stretch, cut off at both ends, may be buffers of a ring that were not filled anew: both are so many buffers long. */
    private boolean oldBuffers(long from, long length, long distance) throws IOException {
        int frame = format.frameBytes();
        long away = distance / frame;
        if (distance % frame != 0
                || length * frame < LEAST_REPEAT
                || length >= LONGEST_SHORT_S * format.sampleRateHz()
                || length > away
                || from + length >= file.samples()
                || (inBuffers(length, away) < LEAST_ONCE && inBuffers(length - 1, away) < LEAST_ONCE)) {
            return false;
        }
        return edge(-1, from, false).cut()
                && edge(-1, from + length, true).cut()
                && unlike(from - WIDE_EDGE, away)
                && unlike(from + length, away);
    }

    /** Whether most samples from a place on are not as they were before: a tone is so again but for the rounding of a few. */
    private boolean unlike(long from, long away) throws IOException {
        int frame = format.frameBytes();
        long first = Math.max(away, from);
        ByteBuffer here = file.stored(first * frame, WIDE_EDGE * frame);
        ByteBuffer there = file.stored((first - away) * frame, WIDE_EDGE * frame);
        int frames = here.remaining() / frame;
        int same = 0;
        for (int i = 0; i < frames; i++) {
            same += here.slice(i * frame, frame).equals(there.slice(i * frame, frame)) ? 1 : 0;
        }
        return 2 * same < frames;
    }

    /** The longest buffer of which two lengths are multiples. */
    private static long inBuffers(long a, long b) {
        return b == 0 ? a : inBuffers(b, a % b);
    }

    /** How many bytes from a place on, in a direction, are the same as {@code distance} before. */
    private long same(long place, long distance, int direction, long most) throws IOException {
        long same = 0;
        while (same < most) {
            long at = direction > 0 ? place + same : Math.max(distance, place - same - STEP);
            int count = (int) (direction > 0 ? STEP : place - same - at);
            if (count <= 0) {
                return same;
            }
            ByteBuffer here = file.stored(at, count);
            ByteBuffer there = file.stored(at - distance, here.remaining());
            if (direction > 0) {
                int mismatch = here.mismatch(there);
                same += mismatch < 0 ? here.remaining() : mismatch;
                if (mismatch >= 0 || here.remaining() < count) {
                    return same;
                }
            } else {
                int equal = 0;
                while (equal < count && here.get(count - 1 - equal) == there.get(count - 1 - equal)) {
                    equal++;
                }
                same += equal;
                if (equal < count) {
                    return same;
                }
            }
        }
        return same;
    }
}
