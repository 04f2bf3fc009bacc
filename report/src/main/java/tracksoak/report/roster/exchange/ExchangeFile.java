package tracksoak.report.roster.exchange;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Digests;
import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.event.EventKind;

/**
 * A whole roster in one file, to be carried on a stick: a line that says what it is, one line per event (see {@link ParcelLines}), and a
 * line that says how many there were and their SHA-256. Written and read as it streams, so neither side holds more than a few records.
 */
public final class ExchangeFile {

    /** The schema of the file, in its first line. */
    public static final String SCHEMA = "tracksoak/roster-exchange/1";

    /** Most events read from one file. */
    public static final int MOST_EVENTS = 1_000_000;

    private static final String HEAD = "{\"schema\":\"" + SCHEMA + "\"}\n";
    private static final int PAGE = 1_000;
    private static final int BATCH = 50;

    /**
     * What came of an import.
     *
     * @param receipt events taken, known and refused
     * @param keys keys that the file would make known, left out because that was not asked for
     */
    public record Result(Receipt receipt, List<String> keys) {
        public Result {
            keys = List.copyOf(keys);
        }
    }

    private static final int MOST_NAMED = 20;

    private ExchangeFile() {}

    /**
     * Writes all events of a roster.
     *
     * @return how many
     */
    public static int write(RosterPeer roster, OutputStream to) throws IOException {
        BufferedOutputStream out = new BufferedOutputStream(to, 1 << 16);
        MessageDigest digest = Digests.sha256();
        out.write(ParcelLines.utf8(HEAD));
        int events = 0;
        String after = "";
        for (List<String> refs = roster.refs(after, PAGE); !refs.isEmpty(); refs = roster.refs(after, PAGE)) {
            List<String> left = new ArrayList<>(refs);
            while (!left.isEmpty()) {
                List<Parcel> parcels = roster.pull(List.copyOf(left.subList(0, Math.min(BATCH, left.size()))));
                if (parcels.isEmpty()) {
                    left.subList(0, Math.min(BATCH, left.size())).clear();
                }
                for (Parcel parcel : parcels) {
                    byte[] line = ParcelLines.line(parcel);
                    digest.update(line);
                    out.write(line);
                }
                events += parcels.size();
                left.removeAll(
                        parcels.stream().map(parcel -> parcel.event().ref()).toList());
            }
            after = refs.get(refs.size() - 1);
        }
        String sum = HexFormat.of().formatHex(digest.digest());
        out.write(ParcelLines.utf8("{\"events\":" + events + ",\"sha256\":\"" + sum + "\"}\n"));
        out.flush();
        return events;
    }

    /**
     * Reads a file into a roster. What is taken before a damaged place stays; reading it again is harmless.
     *
     * @param newKeys whether keys it would make known are taken: whoever's key is known can make drives trusted. Without, their records are
     *     taken all the same, and give no trust
     * @throws Problem of kind REFUSED if it is no such file, damaged or cut short
     */
    public static Result read(InputStream from, RosterPeer roster, boolean newKeys) throws IOException {
        BufferedInputStream in = new BufferedInputStream(from, 1 << 16);
        byte[] head = ParcelLines.next(in);
        if (head == null || !java.util.Arrays.equals(ParcelLines.utf8(HEAD.strip()), head)) {
            throw ParcelLines.refused("its first line is not that of a roster exchange of version 1", null);
        }
        Reading reading = new Reading(roster, newKeys);
        for (byte[] line = reading.next(in); line != null; line = reading.next(in)) {
            if (reading.ended) {
                throw reading.broken("something follows its last line", null);
            }
            reading.line(line);
        }
        if (!reading.ended) {
            throw reading.broken("it is cut short", null);
        }
        return new Result(reading.receipt, reading.keys);
    }

    /** Goes through the lines between head and end. */
    private static final class Reading {

        private final RosterPeer roster;
        private final boolean newKeys;
        private final MessageDigest digest = Digests.sha256();
        private final List<Parcel> batch = new ArrayList<>();
        private final List<String> keys = new ArrayList<>();
        private Receipt receipt = Receipt.NONE;
        private int events;
        private boolean ended;

        Reading(RosterPeer roster, boolean newKeys) {
            this.roster = roster;
            this.newKeys = newKeys;
        }

        byte @Nullable [] next(InputStream in) throws IOException {
            try {
                return ParcelLines.next(in);
            } catch (Problem tooLong) {
                throw broken(tooLong.why(), tooLong);
            }
        }

        void line(byte[] line) {
            if (end(line)) {
                return;
            }
            digest.update(line);
            digest.update((byte) '\n');
            if (++events > MOST_EVENTS) {
                throw broken("it holds more than " + MOST_EVENTS + " events", null);
            }
            Parcel parcel;
            try {
                parcel = ParcelLines.read(line);
            } catch (Problem unreadable) {
                receipt = receipt.refusing(
                        ParcelLines.called(line, "event " + events + " of the file"), unreadable.told());
                return;
            }
            if (!newKeys && parcel.event().kind() == EventKind.KEY_ADDED) {
                if (keys.size() < 100
                        && roster.pull(List.of(parcel.event().ref())).isEmpty()) {
                    keys.add(
                            parcel.event().subject() == null
                                    ? ""
                                    : new tracksoak.report.record.sign.VerifyKey(
                                                    parcel.event().subject().key())
                                            .id());
                }
                return;
            }
            batch.add(parcel);
            if (batch.size() >= BATCH) {
                flush();
            }
        }

        private boolean end(byte[] line) {
            if (line.length > 200
                    || !new String(line, java.nio.charset.StandardCharsets.UTF_8).startsWith("{\"events\":")) {
                return false;
            }
            flush();
            try {
                JsonNode node = SmallJson.read(line);
                String sum = HexFormat.of().formatHex(digest.digest());
                if (node.path("events").asInt(-1) != events
                        || !node.path("sha256").asText().equals(sum)) {
                    throw broken("its events are not those that were exported", null);
                }
            } catch (IOException e) {
                throw broken("its last line is damaged", e);
            }
            ended = true;
            return true;
        }

        /** What came in all the same stays, and must be told with what is wrong. */
        Problem broken(String why, @Nullable Throwable cause) {
            flush();
            return ParcelLines.refused(
                    why + "; what is whole in it was taken: " + receipt.taken() + " new, " + receipt.known()
                            + " known already" + refused() + leftOut(),
                    cause);
        }

        private String leftOut() {
            return keys.isEmpty() ? "" : "; keys left out, whose records give no trust: " + String.join(", ", keys);
        }

        /** The events that could not be taken, by name: one of them is what was changed. */
        private String refused() {
            List<Receipt.Refusal> all = receipt.refused();
            return all.isEmpty()
                    ? ""
                    : "; refused: "
                            + all.stream()
                                    .limit(MOST_NAMED)
                                    .map(one -> one.event() + ": " + one.why())
                                    .collect(Collectors.joining("; "))
                            + (all.size() > MOST_NAMED ? "; and " + (all.size() - MOST_NAMED) + " more" : "");
        }

        void flush() {
            if (!batch.isEmpty()) {
                receipt = receipt.and(roster.push(List.copyOf(batch)));
                batch.clear();
            }
        }
    }
}
