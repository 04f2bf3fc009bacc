package tracksoak.report.roster.store;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.standing.Claim;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.Mark;
import tracksoak.report.roster.standing.RecordDigest;

/**
 * The state of a drive as text for the store: one value after another, each with its length before it. A list of thousands of drives in a
 * new process is mostly the reading of these, and this is read many times faster than JSON. It is never exchanged, and made again
 * where a newer program works out more.
 */
final class StateText {

    private static final String NONE = "-";
    private static final char LENGTH_ENDS = ':';

    private StateText() {}

    static String write(DriveState state) {
        StringBuilder text = new StringBuilder(2_048);
        put(text, state.id());
        DriveIdentity identity = state.identity();
        put(text, identity == null ? null : "1");
        if (identity != null) {
            put(text, identity.maker());
            put(text, identity.model());
            put(text, identity.serial());
            put(text, identity.sizeBytes());
        }
        put(text, state.tags().size());
        state.tags().forEach(tag -> put(text, tag));
        put(text, state.withdrawals().size());
        for (Claim claim : state.withdrawals()) {
            put(text, claim.ref());
            put(text, claim.text());
            put(text, claim.by());
            put(text, claim.atMs());
        }
        put(text, state.marks().size());
        for (Mark mark : state.marks()) {
            put(text, mark.pass() ? 1 : 0);
            put(text, mark.atMs());
            put(text, mark.sessionId());
            put(text, mark.all() ? 1 : 0);
            put(text, mark.ref());
            put(text, mark.runId());
            put(text, mark.paceMs());
            put(text, mark.provenBytes());
        }
        put(text, state.records());
        put(text, state.unsigned());
        put(text, state.doubtful());
        put(text, state.notes());
        put(text, state.lastNote());
        put(text, state.lastRecordMs());
        digest(text, state.lastRecord());
        return text.toString();
    }

    private static void digest(StringBuilder text, @Nullable RecordDigest last) {
        put(text, last == null ? null : last.sha256());
        if (last == null) {
            return;
        }
        put(text, last.runId());
        put(text, last.endedAtMs());
        put(text, last.outcome().name());
        put(text, last.doubt());
        put(text, last.plan());
        put(text, last.shortened() ? 1 : 0);
        put(text, last.trusting() ? 1 : 0);
        put(text, last.everySession() ? 1 : 0);
        put(text, last.sessionId());
        put(text, last.session());
        put(text, last.tracks());
        put(text, last.bytesPerSecond());
        put(text, last.sentence());
        put(text, last.paceMs());
        put(text, last.provenBytes());
        put(text, last.fileSystem());
        put(text, last.freeBytes());
    }

    private static void put(StringBuilder text, @Nullable Object value) {
        if (value == null) {
            text.append(NONE);
        } else {
            String plain = value.toString();
            text.append(plain.length()).append(LENGTH_ENDS).append(plain);
        }
    }

    /** @throws IllegalStateException if it is not what {@link #write} makes */
    static DriveState read(String text) {
        try {
            return new Reader(text).state();
        } catch (IndexOutOfBoundsException | IllegalArgumentException | NullPointerException e) {
            throw new IllegalStateException("a derived value cannot be read: rebuild the roster", e);
        }
    }

    /** Goes through a text once. */
    private static final class Reader {
        private final String text;
        private int at;

        Reader(String text) {
            this.text = text;
        }

        DriveState state() {
            return new DriveState(
                    said(),
                    next() == null ? null : new DriveIdentity(next(), next(), next(), whole()),
                    list(reader -> reader.said()),
                    list(reader -> new Claim(reader.said(), reader.said(), reader.said(), reader.number())),
                    list(Reader::mark),
                    (int) number(),
                    (int) number(),
                    (int) number(),
                    (int) number(),
                    said(),
                    number(),
                    digest());
        }

        private Mark mark() {
            return new Mark(flag(), number(), said(), flag(), said(), said(), number(), number());
        }

        private @Nullable RecordDigest digest() {
            String sha256 = next();
            return sha256 == null
                    ? null
                    : new RecordDigest(
                            sha256,
                            said(),
                            number(),
                            Verdict.Outcome.valueOf(said()),
                            said(),
                            said(),
                            flag(),
                            flag(),
                            flag(),
                            said(),
                            said(),
                            (int) number(),
                            number(),
                            said(),
                            number(),
                            number(),
                            next(),
                            whole());
        }

        private <T> List<T> list(Function<Reader, T> one) {
            int size = (int) number();
            List<T> all = new ArrayList<>(Math.min(size, text.length()));
            for (int i = 0; i < size; i++) {
                all.add(one.apply(this));
            }
            return all;
        }

        private @Nullable String next() {
            if (text.charAt(at) == NONE.charAt(0)) {
                at++;
                return null;
            }
            int length = 0;
            for (char digit = text.charAt(at); digit != LENGTH_ENDS; digit = text.charAt(at)) {
                length = length * 10 + digit - '0';
                at++;
            }
            int from = at + 1;
            at = from + length;
            return text.substring(from, at);
        }

        private String said() {
            return Objects.requireNonNull(next());
        }

        private @Nullable Long whole() {
            String digits = next();
            return digits == null ? null : (Long) Long.parseLong(digits);
        }

        private long number() {
            return Long.parseLong(said());
        }

        private boolean flag() {
            return said().equals("1");
        }
    }
}
