package tracksoak.bench.command.standin;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.standin.learn.BufferFound;
import tracksoak.bench.standin.learn.BufferWords;
import tracksoak.bench.standin.learn.Comparison;
import tracksoak.bench.standin.learn.Learned;
import tracksoak.bench.standin.learn.Pattern;

/** What was learnt of a recorder, for people and for programs. */
public final class LearnedText {

    private LearnedText() {}

    /** For people. */
    public static void print(
            Pattern pattern, @Nullable BufferFound buffer, @Nullable Comparison against, PrintWriter out) {
        pattern.doubts().forEach(doubt -> out.println("Mind: " + doubt));
        out.println("The recorder's pattern:");
        for (Learned one : pattern.all()) {
            out.println("  " + one.habit().words() + ": " + one.value());
            out.println("      " + one.evidence());
        }
        if (buffer != null && !buffer.tried().isEmpty()) {
            out.println("The recorder's buffer:");
            BufferWords.lines(buffer).forEach(line -> out.println("  " + line));
        }
        if (against != null) {
            out.println("Held against the other recording:");
            against.lines().forEach(line -> out.println("  " + line));
        }
        out.flush();
    }

    /** For programs. */
    public static void put(
            Map<String, Object> document, Pattern pattern, @Nullable BufferFound buffer, @Nullable Comparison against) {
        document.put("warnings", pattern.doubts());
        document.put(
                "pattern",
                pattern.all().stream()
                        .map(one ->
                                Map.of("what", one.habit().words(), "value", one.value(), "evidence", one.evidence()))
                        .toList());
        if (against != null) {
            document.put("against", against);
        }
        if (buffer != null) {
            Map<String, @Nullable Object> found = new LinkedHashMap<>();
            found.put("heldS", value(buffer.heldS()));
            found.put("unseenS", buffer.unseenS());
            found.put("heldTimes", buffer.heldTimes());
            found.put("lostS", value(buffer.lostS()));
            found.put("doubtS", value(buffer.doubtS()));
            found.put("onOverrun", buffer.onOverrun());
            found.put("chunkS", buffer.chunkS());
            found.put("traceSha256", buffer.traceSha256());
            found.put("tried", List.copyOf(new ArrayList<>(buffer.tried())));
            document.put("buffer", found);
        }
    }

    private static @Nullable Double value(OptionalDouble value) {
        return value.isPresent() ? value.getAsDouble() : null;
    }
}
