package tracksoak.bench.rig;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import tracksoak.bench.stream.Stamp;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.PhaseFacts;

/** What the backend saw: every request with its time, as {@code bad_drive.c} wrote it down. */
public final class RequestLog {

    private final List<Entry> entries;

    private RequestLog(List<Entry> entries) {
        this.entries = entries;
    }

    static RequestLog read(Path file) {
        try {
            // what follows the last line break is still being written
            String text = Files.readString(file);
            return new RequestLog(text.substring(0, text.lastIndexOf('\n') + 1)
                    .lines()
                    .map(RequestLog::parse)
                    .toList());
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read the request log " + file, e);
        }
    }

    private static Entry parse(String line) {
        String[] f = line.split(" ", -1);
        return new Entry(
                f[0].charAt(0),
                Long.parseLong(f[1]),
                Long.parseLong(f[2]),
                Long.parseLong(f[3]),
                Long.parseLong(f[4]),
                Long.parseLong(f[5]),
                Long.parseLong(f[6]),
                f[7]);
    }

    /** Only what began at or after this time of the monotonic clock and before the other, in ns. */
    public RequestLog between(long fromNs, long untilNs) {
        return new RequestLog(entries.stream()
                .filter(entry -> entry.startNs() >= fromNs && entry.startNs() < untilNs)
                .toList());
    }

    /** Only what began while a phase went on; good to some ms, for the record gives the wall clock's time. */
    RequestLog during(PhaseFacts phase) {
        long sinceBootNs = SystemClocks.NANO.nanoTime() - SystemClocks.EPOCH.epochMillis() * 1_000_000;
        long from = Instant.parse(phase.startedAt()).toEpochMilli() * 1_000_000 + sinceBootNs;
        return between(from, from + Math.round(phase.seconds() * 1e9));
    }

    /** Every event in order of time. */
    public List<Entry> all() {
        return entries;
    }

    /** Writes that the drive took (or pretended to take), in order of time. */
    public List<Entry> writes() {
        return entries.stream()
                .filter(entry -> entry.op() == 'W'
                        && (entry.outcome().equals("ok") || entry.outcome().equals("dropped")))
                .toList();
    }

    /** Writes that carried payload and nothing else. */
    public List<Entry> payloadWrites() {
        return writes().stream().filter(Entry::payloadOnly).toList();
    }

    /**
     * Payload writes put together to the chunks they were written as, for a file system splits a chunk where its room is not
     * in one piece. Holds for one writer, which has one chunk in flight. A chunk's service ends with its last piece.
     */
    List<Entry> chunks(int bytes) {
        List<Entry> chunks = new ArrayList<>();
        Entry open = null;
        for (Entry piece : payloadWrites()) {
            open = open == null ? piece : open.with(piece);
            if (open.length() >= bytes) {
                chunks.add(open);
                open = null;
            }
        }
        return chunks;
    }

    /** Writes of payload larger than a probe, or reads of anything, so far. */
    long payloadOrRead(char op) {
        return entries.stream()
                .filter(entry ->
                        entry.op() == op && (op == 'R' || (entry.payloadOnly() && entry.length() > Stamp.BLOCK)))
                .count();
    }

    /** Bytes of payload blocks the drive took, also those in requests that carried other blocks. */
    public long payloadBytes() {
        return writes().stream().mapToLong(Entry::marked).sum() * 4096;
    }

    /** Blocks stored with a wrong bit. */
    public long flipped() {
        return entries.stream().mapToLong(Entry::flipped).sum();
    }

    /** Time in which the drive worked at something, however many requests lay before it, in ns. */
    long busyNs() {
        List<Entry> sorted = new ArrayList<>(entries);
        sorted.sort(Comparator.comparingLong(Entry::startNs));
        long busyNs = 0;
        long until = Long.MIN_VALUE;
        for (Entry entry : sorted) {
            long end = entry.startNs() + entry.serviceNs();
            busyNs += Math.max(0, end - Math.max(until, entry.startNs()));
            until = Math.max(until, end);
        }
        return busyNs;
    }

    /** Stalls in order of time. */
    public List<Entry> stalls() {
        return of('S');
    }

    /** Hangs that began, in order of time. */
    public List<Entry> hangs() {
        return of('H');
    }

    /** Requests refused. */
    public List<Entry> refused() {
        return entries.stream()
                .filter(entry ->
                        entry.outcome().equals("eio") || entry.outcome().equals("erofs"))
                .toList();
    }

    private List<Entry> of(char op) {
        return entries.stream().filter(entry -> entry.op() == op).toList();
    }

    /**
     * Service time by nearest rank, in ns; 0 without any.
     *
     * @param quantile 0…1
     */
    static long serviceNs(List<Entry> entries, double quantile) {
        long[] sorted = entries.stream().mapToLong(Entry::serviceNs).sorted().toArray();
        return sorted.length == 0 ? 0 : sorted[Math.max(0, (int) Math.ceil(quantile * sorted.length) - 1)];
    }

    @Override
    public String toString() {
        return entries.size() + " requests, " + payloadBytes() + " B of payload, stalls "
                + Arrays.toString(stalls().stream().mapToLong(Entry::serviceNs).toArray());
    }

    /**
     * One event.
     *
     * @param op W write, R read, F flush, S stall, H hang
     * @param startNs when it reached the drive, in ns of the monotonic clock
     * @param offset address on the drive in bytes
     * @param length bytes
     * @param serviceNs how long the drive took, or how long it stalled, in ns
     * @param marked blocks of 4 KiB that bore the bench's stamp
     * @param flipped blocks stored with a wrong bit
     * @param outcome ok, dropped, eio, erofs, stall or hang
     */
    public record Entry(
            char op,
            long startNs,
            long offset,
            long length,
            long serviceNs,
            long marked,
            long flipped,
            String outcome) {

        private Entry with(Entry later) {
            long endNs = Math.max(startNs + serviceNs, later.startNs + later.serviceNs);
            return new Entry(
                    op,
                    startNs,
                    offset,
                    length + later.length,
                    endNs - startNs,
                    marked + later.marked,
                    flipped + later.flipped,
                    outcome);
        }

        boolean payloadOnly() {
            return marked > 0 && marked * 4096 == length;
        }
    }
}
