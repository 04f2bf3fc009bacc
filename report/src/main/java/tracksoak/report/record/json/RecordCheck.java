package tracksoak.report.record.json;

import java.lang.reflect.Method;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.IntColumn;
import tracksoak.report.record.facts.KeepsakeFacts;
import tracksoak.report.record.facts.MixFacts;
import tracksoak.report.record.facts.Odds;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PlaybackFacts;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.ReadyFacts;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Seed;
import tracksoak.report.record.facts.Series;
import tracksoak.report.record.facts.StreamTotals;
import tracksoak.report.record.facts.Verdict;

/**
 * What every run record must hold, whoever made it: no null where a value must be, figures finite and not negative, texts
 * and lists bounded, columns of equal length.
 */
public final class RecordCheck {

    static final int LONGEST_LIST = 10_000;
    private static final Instant LATEST = Instant.parse("9999-12-31T00:00:00Z");
    static final int LONGEST_TEXT = 4_000;
    private static final Pattern UUID = Pattern.compile("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}");
    private static final Set<String> MAY_BE_NEGATIVE = Set.of("clockStepMs", "shape", "temperatureC", "clockPpm");
    private static final int BRIEF = 120;

    /** What a record is made of, looked up once: a roster reads thousands of one kind. */
    private static final ClassValue<List<Part>> PARTS = new ClassValue<>() {
        @Override
        protected List<Part> computeValue(Class<?> kind) {
            return Stream.of(kind.getRecordComponents())
                    .map(part -> new Part(
                            part.getName(),
                            part.getAccessor(),
                            part.getAnnotatedType().isAnnotationPresent(Nullable.class)))
                    .toList();
        }
    };

    private final String what;

    private record Part(String name, Method accessor, boolean maybe) {}

    private RecordCheck(String what) {
        this.what = what;
    }

    /** Throws a {@link RecordException} that begins with {@code what} at the first thing that cannot be. */
    static void check(RunRecord record, String what) {
        RecordCheck check = ofParts(record, what);
        check.head(record.schema(), RunRecord.SCHEMA, record.id(), record.startedAt(), record.endedAt());
        SessionCheck.check(record.session(), check::require);
        check.ready(record.ready());
        check.odds(record.verdict());
        for (int i = 0; i < record.phases().size(); i++) {
            check.phase("phases[" + i + "]", record.phases().get(i));
        }
    }

    private void ready(@Nullable ReadyFacts ready) {
        if (ready != null) {
            require(
                    ready.usableS() >= ready.mountedS(),
                    "ready.usableS",
                    ready.usableS(),
                    "mountedS or more, " + ready.mountedS());
        }
    }

    private void odds(@Nullable Verdict verdict) {
        Odds odds = verdict == null ? null : verdict.odds();
        if (odds == null) {
            return;
        }
        share("verdict.odds.countChance", odds.countChance());
        Odds.Fit fit = odds.fit();
        if (fit != null) {
            share("verdict.odds.fit.lawChance", fit.lawChance());
            share("verdict.odds.fit.steadyChance", fit.steadyChance());
            share("verdict.odds.fit.leastChance", fit.leastChance());
            share("verdict.odds.fit.chance", fit.chance());
            share("verdict.odds.fit.mostChance", fit.mostChance());
            few("verdict.odds.fit.curve", fit.curve());
            few("verdict.odds.fit.highest", fit.highest());
        }
    }

    private void share(String at, double value) {
        require(value <= 1, at, value, "0 to 1");
    }

    private void few(String at, List<?> list) {
        require(list.size() <= Odds.MOST_LISTED, at, list.size() + " entries", "at most " + Odds.MOST_LISTED);
    }

    private void keepsake(String at, @Nullable KeepsakeFacts keepsake) {
        if (keepsake != null) {
            instant(at + ".writtenAt", keepsake.writtenAt());
            require(UUID.matcher(keepsake.runId()).matches(), at + ".runId", brief(keepsake.runId()), "a UUID");
            require(
                    keepsake.filesGone() <= keepsake.files(),
                    at + ".filesGone",
                    keepsake.filesGone(),
                    "at most files, " + keepsake.files());
        }
    }

    /** Checks every part of a record for nulls, figures and sizes. */
    static RecordCheck ofParts(Record record, String what) {
        RecordCheck check = new RecordCheck(what);
        check.parts("", record);
        return check;
    }

    /** Checks what every document begins with. */
    void head(String schema, String expected, String id, String startedAt, @Nullable String endedAt) {
        require(schema.equals(expected), "schema", brief(schema), expected);
        id("id", id);
        instant("startedAt", startedAt);
        if (endedAt != null) {
            instant("endedAt", endedAt);
        }
    }

    private void phase(String at, PhaseFacts phase) {
        instant(at + ".startedAt", phase.startedAt());
        require(phase.busyFraction() <= 1, at + ".busyFraction", phase.busyFraction(), "0 to 1");
        require(
                phase.stalls().size() <= PhaseFacts.MOST_LISTED,
                at + ".stalls",
                phase.stalls().size(),
                "at most 500");
        require(
                phase.overruns().size() <= PhaseFacts.MOST_LISTED,
                at + ".overruns",
                phase.overruns().size(),
                "at most 500");
        require(
                phase.stallCount() >= phase.stalls().size(),
                at + ".stallCount",
                phase.stallCount(),
                "those listed or more");
        keepsake(at + ".keepsake", phase.keepsake());
        Series series = phase.series();
        if (series != null) {
            int length = series.length();
            same(at + ".series.maxServiceMs", series.maxServiceMs().size(), length);
            same(at + ".series.maxBacklogMs", series.maxBacklogMs().size(), length);
            same(at + ".series.busyMs", series.busyMs().size(), length);
            same(at + ".series.hostDelayMs", series.hostDelayMs().size(), length);
            sums(at + ".series.serviceMs", series.serviceMs(), length);
            sums(at + ".series.flushes", series.flushes(), length);
            sums(at + ".series.flushMs", series.flushMs(), length);
            sums(at + ".series.maxFlushMs", series.maxFlushMs(), length);
        }
        PlaybackFacts playback = phase.playback();
        MixFacts mix = playback == null ? null : playback.mix();
        if (mix != null) {
            require(
                    mix.overruns().size() <= PhaseFacts.MOST_LISTED,
                    at + ".playback.mix.overruns",
                    mix.overruns().size(),
                    "at most 500");
        }
        StreamTotals streams = phase.streams();
        if (streams != null) {
            int length = streams.bytes().size();
            same(at + ".streams.lostMs", streams.lostMs().size(), length);
            same(at + ".streams.peakBacklogMs", streams.peakBacklogMs().size(), length);
            same(at + ".streams.files", streams.files().size(), length);
        }
        ReadBackFacts back = phase.readBack();
        if (back != null) {
            long sum = back.good() + back.bad() + back.unread();
            require(sum == back.blocks(), at + ".readBack.blocks", back.blocks(), "the sum of its parts, " + sum);
            require(
                    back.examples().size() <= 100,
                    at + ".readBack.examples",
                    back.examples().size(),
                    "at most 100");
        }
    }

    private void parts(String at, Record record) {
        for (Part part : PARTS.get(record.getClass())) {
            String name = at.isEmpty() ? part.name : at + "." + part.name;
            Object value;
            try {
                value = part.accessor.invoke(record);
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException("a record's own accessor cannot be called", e);
            }
            require(value != null || part.maybe, name, "null", "a value");
            if (value != null) {
                value(name, part.name, value);
            }
        }
    }

    private void value(String at, String name, Object value) {
        if (value instanceof Double number) {
            require(Double.isFinite(number), at, number, "a finite number");
            require(number >= 0 || MAY_BE_NEGATIVE.contains(name), at, number, "0 or more");
        } else if (value instanceof Number number) {
            require(number.longValue() >= 0 || MAY_BE_NEGATIVE.contains(name), at, number, "0 or more");
        } else if (value instanceof String text) {
            int longest = name.equals("histogram") ? 1 << 20 : LONGEST_TEXT;
            require(text.length() <= longest, at, text.length() + " characters", "at most " + longest);
        } else if (value instanceof IntColumn column) {
            require(column.size() <= IntColumnJson.LONGEST, at, column.size(), "at most " + IntColumnJson.LONGEST);
            require(column.stream().allMatch(entry -> entry >= 0), at, "an entry below 0", "0 or more");
        } else if (value instanceof List<?> list) {
            require(list.size() <= LONGEST_LIST, at, list.size() + " entries", "at most " + LONGEST_LIST);
            for (int i = 0; i < list.size(); i++) {
                value(at + "[" + i + "]", name, Objects.requireNonNull(list.get(i)));
            }
        } else if (value instanceof Record record && !(record instanceof Seed)) {
            parts(at, record);
        }
    }

    private void sums(String at, @Nullable IntColumn column, int expected) {
        if (column != null) {
            same(at, column.size(), expected);
        }
    }

    void id(String at, String text) {
        require(UUID.matcher(text).matches(), at, brief(text), "a UUID in lower case");
    }

    private void same(String at, int size, int expected) {
        require(size == expected, at, size + " entries", expected + ", as its neighbours");
    }

    void instant(String at, String text) {
        boolean fine;
        try {
            Instant instant = Instant.parse(text);
            fine = !instant.isBefore(Instant.EPOCH) && instant.isBefore(LATEST);
        } catch (DateTimeException e) {
            fine = false;
        }
        require(fine, at, brief(text), "an instant like 2026-01-31T20:15:00Z, 1970 to 9999");
    }

    void require(boolean fine, String where, Object value, String allowed) {
        if (!fine) {
            throw new RecordException(
                    what, where, "it is " + value + ", allowed is " + allowed, "the record is damaged or was edited");
        }
    }

    /** Outside text for a message: one short printable line. */
    public static String brief(String text) {
        String line = text.replaceAll("\\p{C}", "?");
        return line.length() <= BRIEF ? line : line.substring(0, BRIEF) + "…";
    }
}
