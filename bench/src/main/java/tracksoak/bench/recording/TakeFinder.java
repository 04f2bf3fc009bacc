package tracksoak.bench.recording;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.IntSummaryStatistics;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.BiPredicate;
import java.util.function.Function;
import java.util.function.ToLongFunction;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * Tells which files are which tracks of which take, and in which order splits follow each other: by the numbers in their
 * names, their lengths, and their time references where they have some, else by what the audio shows. One thread.
 */
public final class TakeFinder {

    /** Splits further apart than this are two takes. */
    private static final double MOST_GAP_S = 5;

    /** Tracks of one take whose lengths are further apart than this share belong together only if most are alike. */
    private static final double ALIKE = 0.1;

    /** Samples: a take whose last file is so near to the length of a full one hardly ends there. */
    private static final long HARDLY_AN_END = 1 << 17;

    private static final int FEW = 3;
    private static final int NO_ORDER = -1;
    private static final long LEAST_SPLIT_BYTES = 1L << 29;

    private final Map<RecordedFile, FileName> names = new LinkedHashMap<>();

    private final BiPredicate<RecordedFile, RecordedFile> follows;

    private TakeFinder(List<RecordedFile> files, BiPredicate<RecordedFile, RecordedFile> follows) {
        this.follows = follows;
        files.stream()
                .sorted(Comparator.comparing(RecordedFile::path, NaturalOrder.PATHS))
                .forEach(file -> names.put(file, FileName.of(file.stem())));
        Map<String, FileName> series = new HashMap<>();
        names.forEach((file, name) -> series.merge(
                FileName.series(file.stem()).toLowerCase(Locale.ROOT), name, (one, other) -> lower(one, other)));
        series.remove("");
        // some recorders count from the second file on
        names.replaceAll((file, name) -> {
            FileName second = series.get(file.stem().toLowerCase(Locale.ROOT));
            return second == null ? name : second.before();
        });
    }

    private static FileName lower(FileName one, FileName other) {
        return last(other) < last(one) ? other : one;
    }

    private static int last(FileName name) {
        return name.numbers().isEmpty() ? 0 : name.numbers().get(name.numbers().size() - 1);
    }

    /**
     * The takes, folder by folder.
     *
     * @param follows whether the audio of a file shows that it follows another; asked where nothing else tells
     */
    public static List<Take> takes(List<RecordedFile> files, BiPredicate<RecordedFile, RecordedFile> follows) {
        Map<String, List<RecordedFile>> folders = new TreeMap<>(NaturalOrder.PATHS);
        files.forEach(file -> folders.computeIfAbsent(file.folder(), folder -> new ArrayList<>())
                .add(file));
        List<Take> takes = new ArrayList<>();
        folders.forEach((folder, in) -> takes.addAll(new TakeFinder(in, follows).inFolder(folder)));
        return together(takes);
    }

    /** Folders beside each other that hold one track each are the tracks of one take if their times say so, or most are as long to the sample. */
    private static List<Take> together(List<Take> takes) {
        Map<String, List<Take>> beside = takes.stream()
                .filter(take -> take.tracks().size() == 1
                        && take.tracks().get(0).format().channels() <= 2
                        && !folder(take.tracks().get(0)).isEmpty())
                .collect(Collectors.groupingBy(TakeFinder::outside, TreeMap::new, Collectors.toList()));
        List<Take> found = new ArrayList<>(takes);
        beside.forEach((outside, alone) -> {
            List<TrackFiles> tracks = alone.stream()
                    .map(take -> take.tracks().get(0))
                    .map(track -> new TrackFiles(inside(track), track.files(), track.numbers(), track.place()))
                    .toList();
            String name = outside.isEmpty() ? "recording" : outside;
            List<Take> one = timed(tracks) ? overlapping(tracks, name) : List.of(new Take(name, tracks, true));
            boolean apart = tracks.stream().map(TrackFiles::name).distinct().count() == tracks.size();
            if (apart && one.size() < alone.size() && (timed(tracks) || mostAreAlike(tracks))) {
                found.removeAll(alone);
                found.addAll(one);
            }
        });
        return found;
    }

    private static boolean timed(List<TrackFiles> tracks) {
        return tracks.stream()
                .flatMap(track -> track.files().stream())
                .allMatch(file -> file.header().timeReference() != null);
    }

    private static boolean mostAreAlike(List<TrackFiles> tracks) {
        long alike =
                tracks.stream()
                        .collect(Collectors.groupingBy(TrackFiles::seconds, Collectors.counting()))
                        .values()
                        .stream()
                        .mapToLong(Long::longValue)
                        .max()
                        .orElse(0);
        return alike > 1 && 2 * alike >= tracks.size();
    }

    private static String folder(TrackFiles track) {
        return track.files().get(0).folder();
    }

    /** The last name of the folder a track lies in. */
    private static String inside(TrackFiles track) {
        return folder(track).substring(folder(track).lastIndexOf('/') + 1);
    }

    /** The folder that folder lies in. */
    private static String outside(Take take) {
        String folder = folder(take.tracks().get(0));
        return folder.substring(0, Math.max(0, folder.lastIndexOf('/')));
    }

    private List<Take> inFolder(String folder) {
        int order = order();
        if (order == NO_ORDER) {
            List<Take> takes = apart(
                    names.keySet().stream()
                            .map(file -> new TrackFiles(file.stem(), List.of(file), null, NO_ORDER))
                            .toList(),
                    folder);
            return mayBeSplits()
                    ? takes.stream()
                            .map(take -> new Take(take.name(), take.tracks(), false))
                            .toList()
                    : takes;
        }
        Map<String, Map<Integer, RecordedFile>> tracks = tracks(order);
        List<Take> takes = new ArrayList<>();
        List<Set<Integer>> chains = chains(tracks);
        int first = chains.stream().flatMap(Set::stream).min(Integer::compare).orElse(0);
        for (int i = 0; i < chains.size(); i++) {
            Set<Integer> numbers = chains.get(i);
            List<TrackFiles> files = new ArrayList<>();
            tracks.forEach((key, byNumber) -> {
                List<Integer> own =
                        byNumber.keySet().stream().filter(numbers::contains).toList();
                if (!own.isEmpty()) {
                    List<RecordedFile> of = own.stream().map(byNumber::get).toList();
                    String stem = of.get(0).stem();
                    files.add(new TrackFiles(
                            place(of.get(0), order) < 0 ? stem : FileName.without(stem, order), of, own, order));
                }
            });
            boolean mayGoOn = i + 1 < chains.size() && mayGoOn(rows(tracks), numbers, chains.get(i + 1));
            int begins = numbers.contains(first) && othersBefore(first, numbers.size(), files) ? first : 0;
            apart(files, folder)
                    .forEach(take -> takes.add(new Take(take.name(), take.tracks(), take.certain(), mayGoOn, begins)));
        }
        return apartByName(takes, folder.isEmpty() ? "recording" : folder);
    }

    /** Takes of one name are told apart by their first files. */
    private static List<Take> apartByName(List<Take> takes, String folder) {
        Map<String, Long> counts = takes.stream().collect(Collectors.groupingBy(Take::name, Collectors.counting()));
        return takes.stream()
                .map(take -> counts.getOrDefault(take.name(), 0L) == 1
                        ? take
                        : new Take(
                                folder + " ("
                                        + take.tracks().get(0).files().get(0).stem() + ")",
                                take.tracks(),
                                take.certain(),
                                take.mayGoOn(),
                                take.firstNumber()))
                .toList();
    }

    /**
     * Whether files numbered lower should lie there, if the number counts splits. Some recorders count on from take to take: so not if more
     * are absent than are there, nor if only one file, of few tracks, has each number and it is not just the first that is absent.
     */
    private static boolean othersBefore(int first, int count, List<TrackFiles> tracks) {
        boolean several = tracks.size() > 1 || tracks.get(0).format().channels() > 2;
        return count > 1 && first > 1 && (several ? first - 1 < count : first == 2);
    }

    /** Whether a take told by lengths alone ends so that it may as well go on in the next. */
    private static boolean mayGoOn(
            Map<Integer, List<RecordedFile>> rows, Set<Integer> numbers, Set<Integer> nextNumbers) {
        if (timed(rows)) {
            return false;
        }
        List<Long> lengths =
                numbers.stream().map(number -> length(rows, number)).toList();
        long full = lengths.get(0);
        long last = lengths.get(lengths.size() - 1);
        long next = length(rows, nextNumbers.iterator().next());
        if (lengths.size() == 1) {
            // of takes of one file each, two may be almost as long
            return largeAsSplits(row(rows, numbers.iterator().next()).get(0)) && next - full <= HARDLY_AN_END;
        }
        return full - last <= HARDLY_AN_END;
    }

    private static long length(Map<Integer, List<RecordedFile>> rows, int number) {
        return usual(row(rows, number), RecordedFile::samples).getKey();
    }

    /** The tracks by name, each with its files by their number. */
    private Map<String, Map<Integer, RecordedFile>> tracks(int order) {
        Map<String, Map<Integer, RecordedFile>> tracks = new LinkedHashMap<>();
        names.forEach((file, name) -> {
            int number = number(file, order);
            Map<Integer, RecordedFile> byNumber = tracks.computeIfAbsent(trackKey(name, order), key -> new TreeMap<>());
            while (byNumber.containsKey(number)) {
                // two names that differ in nothing but leading zeros or capitals
                number++;
            }
            byNumber.put(number, file);
        });
        return tracks;
    }

    private int place(RecordedFile file, int order) {
        FileName name = names.get(file);
        return name != null && order < name.numbers().size() ? order : -1;
    }

    private int number(RecordedFile file, int order) {
        FileName name = names.get(file);
        return name == null || place(file, order) < 0 ? 0 : name.numbers().get(order);
    }

    private static String trackKey(FileName name, int order) {
        List<Integer> rest = new ArrayList<>(name.numbers());
        if (order >= 0 && order < rest.size()) {
            rest.set(order, 0);
        }
        return name.text() + rest;
    }

    /** Which number of the names counts splits or takes; {@value #NO_ORDER} where none does and every file is a track. */
    private int order() {
        if (names.size() < 2) {
            return NO_ORDER;
        }
        Set<Integer> varying = varying();
        int best = NO_ORDER;
        double tracks = score(NO_ORDER);
        double bestScore =
                tracks - (varying.stream().filter(place -> !letters(place)).count() > 1 ? 0.001 : 0);
        for (int place : varying) {
            double score = letters(place) && !inARow(place) ? -1 : score(place);
            if (letters(place) && score <= tracks) {
                continue;
            }
            // of two numbers that fit alike the later one counts the splits
            if (score > bestScore || (best != NO_ORDER && score == bestScore)) {
                best = place;
                bestScore = score;
            }
        }
        return best;
    }

    private boolean letters(int place) {
        return names.values().stream().anyMatch(name -> name.letter(place));
    }

    /** Whether the letters there are A, B and so on: L and R, or M and S, are tracks. */
    private boolean inARow(int place) {
        IntSummaryStatistics numbers = names.keySet().stream()
                .filter(file -> place(file, place) >= 0)
                .mapToInt(file -> number(file, place))
                .distinct()
                .summaryStatistics();
        return numbers.getMin() <= 1 && numbers.getMax() - numbers.getMin() < numbers.getCount();
    }

    /** The places at which names that are otherwise written alike have different numbers. */
    private Set<Integer> varying() {
        Map<String, List<FileName>> alike = names.values().stream().collect(Collectors.groupingBy(FileName::text));
        Set<Integer> varying = new TreeSet<>();
        for (List<FileName> group : alike.values()) {
            for (int place = 0; place < group.get(0).numbers().size(); place++) {
                int at = place;
                if (group.stream()
                                .map(name -> name.numbers().get(at))
                                .distinct()
                                .count()
                        > 1) {
                    varying.add(place);
                }
            }
        }
        return varying;
    }

    /** How well it fits that this number counts splits: the share of files that begin, or are as long, as most beside them. */
    private double score(int order) {
        Map<Integer, List<RecordedFile>> beside = new TreeMap<>();
        names.keySet()
                .forEach(file -> beside.computeIfAbsent(number(file, order), number -> new ArrayList<>())
                        .add(file));
        boolean timed = names.keySet().stream().allMatch(file -> file.header().timeReference() != null);
        boolean alone = beside.values().stream().allMatch(files -> files.size() == 1);
        if (order != NO_ORDER && alone && !timed) {
            List<RecordedFile> inOrder =
                    beside.values().stream().map(files -> files.get(0)).toList();
            return fullSplits(inOrder) || goOn(inOrder) ? 2 : -1;
        }
        ToLongFunction<RecordedFile> value = timed ? TakeFinder::reference : RecordedFile::samples;
        long fitting = beside.values().stream()
                .mapToLong(files -> usual(files, value).getValue())
                .sum();
        double share = (double) fitting / names.size();
        if (order != NO_ORDER && alone) {
            return follows(beside) ? share : -1;
        }
        return share;
    }

    /** Files alone in their row are splits if they hold several tracks, or are as large as files may become. */
    private static boolean fullSplits(List<RecordedFile> inOrder) {
        if (inOrder.stream().allMatch(file -> file.header().format().channels() > 2)) {
            return true;
        }
        List<RecordedFile> full = inOrder.subList(0, inOrder.size() - 1);
        // tracks of a long show are as large, and one of them may have lost a little
        return full.stream().allMatch(TakeFinder::largeAsSplits)
                && usual(full, RecordedFile::samples).getValue() == full.size()
                && inOrder.get(full.size()).samples()
                        < (1 - ALIKE) * full.get(0).samples();
    }

    /** Whether files that are all as long, but for a shorter last one, hold audio that goes on from one to the next. */
    private boolean goOn(List<RecordedFile> inOrder) {
        List<RecordedFile> full = inOrder.subList(0, inOrder.size() - 1);
        return usual(full, RecordedFile::samples).getValue() == full.size()
                && inOrder.get(full.size()).samples() <= full.get(0).samples()
                && IntStream.range(0, full.size()).allMatch(i -> follows.test(inOrder.get(i), inOrder.get(i + 1)));
    }

    /** Whether the files are few, numbered behind another number, and as long as each other but for a shorter last one. */
    private boolean mayBeSplits() {
        int last = names.values().iterator().next().numbers().size() - 1;
        if (names.size() > FEW || last < 1 || !varying().equals(Set.of(last)) || letters(last)) {
            return false;
        }
        List<RecordedFile> inOrder = names.keySet().stream()
                .sorted(Comparator.comparing(file -> number(file, last)))
                .toList();
        List<RecordedFile> full = inOrder.subList(0, inOrder.size() - 1);
        return names.keySet().stream().allMatch(file -> file.header().timeReference() == null)
                && usual(full, RecordedFile::samples).getValue() == full.size()
                && inOrder.get(full.size()).samples() < full.get(0).samples();
    }

    /** Whether a file is as large as recorders let files become. */
    public static boolean largeAsSplits(RecordedFile file) {
        return file.header().fileBytes() >= LEAST_SPLIT_BYTES;
    }

    /** Whether most files, in the order of time, begin about where the one before ends. */
    private static boolean follows(Map<Integer, List<RecordedFile>> beside) {
        List<RecordedFile> inTime = beside.values().stream()
                .map(files -> files.get(0))
                .sorted(Comparator.comparingLong(TakeFinder::reference))
                .toList();
        long close = 0;
        for (int i = 1; i < inTime.size(); i++) {
            close += Math.abs(gapS(inTime.get(i - 1), inTime.get(i))) <= MOST_GAP_S
                            && reference(inTime.get(i)) > reference(inTime.get(i - 1))
                    ? 1
                    : 0;
        }
        return 2 * close >= inTime.size() - 1;
    }

    private static double gapS(RecordedFile before, RecordedFile after) {
        return (double) (reference(after) - reference(before) - before.samples())
                / after.header().format().sampleRateHz();
    }

    private static long reference(RecordedFile file) {
        Long reference = file.header().timeReference();
        return reference == null ? -1 : reference;
    }

    /** The value most files have, and how many. */
    private static Map.Entry<Long, Long> usual(List<RecordedFile> files, ToLongFunction<RecordedFile> value) {
        return files.stream()
                .collect(Collectors.groupingBy(value::applyAsLong, TreeMap::new, Collectors.counting()))
                .entrySet()
                .stream()
                .max(Map.Entry.comparingByValue())
                .orElseThrow();
    }

    /** The numbers that belong to one take each: those whose files follow each other. */
    private static List<Set<Integer>> chains(Map<String, Map<Integer, RecordedFile>> tracks) {
        Map<Integer, List<RecordedFile>> rows = rows(tracks);
        return timed(rows) ? chainsInTime(rows) : chainsByLength(rows);
    }

    private static Map<Integer, List<RecordedFile>> rows(Map<String, Map<Integer, RecordedFile>> tracks) {
        Map<Integer, List<RecordedFile>> rows = new TreeMap<>();
        tracks.values()
                .forEach(byNumber -> byNumber.forEach((number, file) ->
                        rows.computeIfAbsent(number, none -> new ArrayList<>()).add(file)));
        return rows;
    }

    private static boolean timed(Map<Integer, List<RecordedFile>> rows) {
        return rows.values().stream()
                .flatMap(List::stream)
                .allMatch(file -> file.header().timeReference() != null);
    }

    private static List<Set<Integer>> chainsInTime(Map<Integer, List<RecordedFile>> rows) {
        Function<Integer, Long> start =
                number -> usual(row(rows, number), TakeFinder::reference).getKey();
        Function<Integer, Double> end = number -> (double) start.apply(number)
                + usual(row(rows, number), RecordedFile::samples).getKey();
        List<Integer> inTime =
                rows.keySet().stream().sorted(Comparator.comparing(start)).toList();
        List<Set<Integer>> chains = new ArrayList<>();
        double reached = 0;
        int before = 0;
        for (int number : inTime) {
            int rate = row(rows, number).get(0).header().format().sampleRateHz();
            double gapS = (start.apply(number) - reached) / rate;
            boolean skipped = number > before + 1 && gapS > 0;
            double mostS = MOST_GAP_S;
            if (skipped && !chains.isEmpty()) {
                // a split that is missing as a whole
                double lengthS = (reached - start.apply(before)) / rate;
                mostS += 1.1 * lengthS * (number - before - 1);
            }
            if (chains.isEmpty() || Math.abs(gapS) > mostS) {
                chains.add(new TreeSet<>());
            }
            chains.get(chains.size() - 1).add(number);
            reached = end.apply(number);
            before = number;
        }
        return chains;
    }

    private static List<RecordedFile> row(Map<Integer, List<RecordedFile>> rows, int number) {
        List<RecordedFile> row = rows.get(number);
        if (row == null) {
            throw new IllegalStateException("no row " + number);
        }
        return row;
    }

    /** Without times: full files follow each other, and the one that is not full is the last. */
    private static List<Set<Integer>> chainsByLength(Map<Integer, List<RecordedFile>> rows) {
        List<Set<Integer>> chains = new ArrayList<>();
        long full = -1;
        for (Map.Entry<Integer, List<RecordedFile>> row : rows.entrySet()) {
            long length = length(rows, row.getKey());
            if (full < 0 || length > full) {
                chains.add(new TreeSet<>());
                full = length;
            }
            chains.get(chains.size() - 1).add(row.getKey());
            full = length < full ? -1 : full;
        }
        return chains;
    }

    /** Files of which nothing says that they were recorded together are takes of their own. */
    private List<Take> apart(List<TrackFiles> tracks, String folder) {
        if (tracks.size() == 1) {
            return List.of(new Take(folder.isEmpty() ? tracks.get(0).name() : folder, tracks, true));
        }
        String name = folder.isEmpty() ? "recording" : folder;
        if (timed(tracks)) {
            return overlapping(tracks, name);
        }
        double longest = tracks.stream().mapToDouble(TrackFiles::seconds).max().orElse(0);
        Map<Long, Long> lengths = tracks.stream()
                .collect(Collectors.groupingBy(track -> Math.round(track.seconds() * 10), Collectors.counting()));
        long most = lengths.values().stream().mapToLong(Long::longValue).max().orElse(0);
        long near = tracks.stream()
                .filter(track -> track.seconds() >= longest * (1 - ALIKE))
                .count();
        if (near == tracks.size()) {
            return List.of(new Take(name, tracks, true));
        }
        if (most >= 2 && 2 * most >= tracks.size()) {
            Collection<List<TrackFiles>> series = series(tracks);
            return series.size() == 1
                    ? List.of(new Take(name, tracks, true))
                    : series.stream()
                            .map(one -> new Take(name + " (" + one.get(0).name() + ")", one, false))
                            .toList();
        }
        return tracks.stream()
                .map(track ->
                        new Take(folder.isEmpty() ? track.name() : folder + "/" + track.name(), List.of(track), false))
                .toList();
    }

    /**
     * Tracks that are named alike, if that also tells them apart by their lengths, as where two recorders wrote into one folder; else all of
     * them as one.
     */
    private static Collection<List<TrackFiles>> series(List<TrackFiles> tracks) {
        Map<String, List<TrackFiles>> alike = tracks.stream()
                .collect(Collectors.groupingBy(
                        track -> FileName.of(track.files().get(0).stem()).text(),
                        LinkedHashMap::new,
                        Collectors.toList()));
        boolean told = alike.values().stream()
                        .allMatch(one -> one.size() > 1 && lengths(one).size() == 1)
                && lengths(tracks).size() == alike.size();
        return told ? alike.values() : List.of(tracks);
    }

    private static Set<Double> lengths(List<TrackFiles> tracks) {
        return tracks.stream().map(TrackFiles::seconds).collect(Collectors.toSet());
    }

    /** Tracks whose times overlap were recorded together. */
    private static List<Take> overlapping(List<TrackFiles> tracks, String name) {
        List<TrackFiles> inTime = tracks.stream()
                .sorted(Comparator.comparingDouble(TakeFinder::startS))
                .toList();
        List<List<TrackFiles>> takes = new ArrayList<>();
        double reached = Double.NEGATIVE_INFINITY;
        for (TrackFiles track : inTime) {
            if (startS(track) >= reached) {
                takes.add(new ArrayList<>());
            }
            takes.get(takes.size() - 1).add(track);
            reached = Math.max(reached, startS(track) + track.seconds());
        }
        List<Take> named = new ArrayList<>();
        for (List<TrackFiles> take : takes) {
            take.sort(Comparator.comparing(tracks::indexOf));
            named.add(new Take(
                    takes.size() == 1 ? name : name + " (" + take.get(0).name() + ")", take, true));
        }
        return named;
    }

    private static double startS(TrackFiles track) {
        return track.files().stream()
                .mapToDouble(file ->
                        (double) reference(file) / file.header().format().sampleRateHz())
                .min()
                .orElse(0);
    }
}
