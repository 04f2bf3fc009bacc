package tracksoak.bench.inspect;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.WaveHeader;
import tracksoak.report.record.facts.inspection.Finding.Weight;
import tracksoak.report.record.facts.inspection.FindingKind;

/** Holds the tracks of one take against each other by their lengths and starts. Pure. */
final class TakeCheck {

    private static final long COMMON_RATE = 28_224_000;
    /** What is beyond counts no samples since midnight. */
    private static final long MOST_REFERENCE = 1L << 42;

    private final List<TrackLine> lines;
    private final List<Found> found = new ArrayList<>();

    private TakeCheck(List<TrackLine> lines) {
        this.lines = lines;
    }

    static List<Found> of(List<TrackLine> lines) {
        TakeCheck check = new TakeCheck(lines);
        if (lines.size() > 1) {
            check.splits();
            check.starts();
        }
        return check.found;
    }

    /** Files that stand beside each other in all tracks are equally long. */
    private void splits() {
        Set<Integer> numbers = new TreeSet<>();
        lines.forEach(line -> numbers.addAll(numbers(line)));
        for (TrackLine line : lines) {
            List<Integer> own = numbers(line);
            for (int number : numbers) {
                boolean inside =
                        own.stream().anyMatch(n -> n > number) && own.stream().anyMatch(n -> n < number);
                // one that is missing between two others shows in their times as well
                if (!own.contains(number) && !(inside && TrackLine.timed(line.track()))) {
                    long at = samplesBefore(line, number);
                    found.add(line.found(
                            FindingKind.MISSING_SPLIT, Weight.FAULT, line.name(), at, 0, Integer.toString(number)));
                }
            }
        }
        for (int number : numbers) {
            lengths(number);
        }
    }

    private static List<Integer> numbers(TrackLine line) {
        List<Integer> numbers = line.track().numbers();
        return numbers == null ? List.of(0) : numbers;
    }

    private static long samplesBefore(TrackLine line, int number) {
        long samples = 0;
        List<Integer> numbers = numbers(line);
        for (int i = 0; i < numbers.size() && numbers.get(i) < number; i++) {
            samples += line.track().files().get(i).samples();
        }
        return samples;
    }

    private void lengths(int number) {
        Map<TrackLine, RecordedFile> row = new LinkedHashMap<>();
        for (TrackLine line : lines) {
            int at = numbers(line).indexOf(number);
            if (at >= 0) {
                row.put(line, line.track().files().get(at));
            }
        }
        Map<Long, Integer> counts = new TreeMap<>();
        row.values().forEach(file -> counts.merge(lengthKey(file), 1, Integer::sum));
        if (counts.size() < 2) {
            return;
        }
        long longest = counts.keySet().stream().mapToLong(Long::longValue).max().orElseThrow();
        long usual = counts.entrySet().stream()
                .filter(entry -> 2 * entry.getValue() > row.size())
                .map(Map.Entry::getKey)
                .findFirst()
                .orElse(longest);
        Long usualEnd = usualEnd(row.values());
        row.forEach((line, file) -> {
            if (lengthKey(file) != usual && sound(file)) {
                int rate = file.header().format().sampleRateHz();
                Long end = end(file);
                // one that was armed later, by its time reference, and ends with most others is as long as it should be
                unequal(
                        line,
                        file,
                        number,
                        end == null || usualEnd == null
                                ? file.samples() - usual * ((double) rate / COMMON_RATE)
                                : (end - usualEnd) * ((double) rate / COMMON_RATE));
            }
        });
    }

    /** When most files of a row end; null where they tell no time, or differ. */
    private static @Nullable Long usualEnd(Collection<RecordedFile> row) {
        Map<Long, Integer> counts = new TreeMap<>();
        for (RecordedFile file : row) {
            Long end = end(file);
            if (end != null) {
                counts.merge(end, 1, Integer::sum);
            }
        }
        for (Map.Entry<Long, Integer> count : counts.entrySet()) {
            if (2 * count.getValue() > row.size()) {
                return count.getKey();
            }
        }
        return null;
    }

    /** Since midnight, in a unit common to all rates. */
    private static @Nullable Long end(RecordedFile file) {
        Long reference = file.header().timeReference();
        return reference == null || reference >= MOST_REFERENCE
                ? null
                : key(reference + file.samples(), file.header().format().sampleRateHz());
    }

    /** Lengths as tracks of different sample rates can be compared: every usual rate goes evenly into this many a second. */
    private static long lengthKey(RecordedFile file) {
        return key(file.samples(), file.header().format().sampleRateHz());
    }

    private static long key(long samples, int rate) {
        return COMMON_RATE % rate == 0
                ? samples * (COMMON_RATE / rate)
                : Math.round(samples * ((double) COMMON_RATE / rate));
    }

    private static boolean sound(RecordedFile file) {
        return file.samples() > 0
                && (file.header().finish() == WaveHeader.Finish.DONE
                        || file.header().finish() == WaveHeader.Finish.BEHIND);
    }

    private void unequal(TrackLine line, RecordedFile file, int number, double off) {
        if (Math.abs(off) < 0.99) {
            return;
        }
        long end = samplesBefore(line, number) + file.samples();
        String how = off < 0 ? "shorter" : "longer";
        found.add(line.found(FindingKind.UNEQUAL_LENGTH, Weight.FAULT, line.name(), end, Math.abs(off), how));
    }

    private void starts() {
        Map<TrackLine, Double> starts = new LinkedHashMap<>();
        lines.forEach(line -> {
            Double start = TrackLine.startS(line.track());
            if (start != null) {
                starts.put(line, start);
            }
        });
        Double usual =
                usual(starts.values().stream().map(Objects::requireNonNull).toList());
        if (usual == null || starts.size() < lines.size()) {
            return;
        }
        starts.forEach((line, start) -> {
            double off = (start - usual) * line.format().sampleRateHz();
            if (Math.abs(off) >= 0.99) {
                String how = off > 0 ? "later" : "earlier";
                double samples = Math.rint(Math.abs(off));
                found.add(line.found(FindingKind.UNEQUAL_START, Weight.FAULT, line.name(), 0, samples, how));
            }
        });
    }

    private static @Nullable Double usual(List<Double> values) {
        return values.stream()
                .collect(Collectors.groupingBy(v -> v, TreeMap::new, Collectors.counting()))
                .entrySet()
                .stream()
                .max(Map.Entry.comparingByValue())
                .map(Map.Entry::getKey)
                .orElse(null);
    }
}
