package tracksoak.bench.inspect;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.Take;
import tracksoak.bench.recording.TrackFiles;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.bench.volume.Volume;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.FileLimit;
import tracksoak.profiles.Key;
import tracksoak.profiles.ProfileException;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.SessionReader;
import tracksoak.profiles.SessionToml;
import tracksoak.profiles.TrackGroup;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Quantity;
import tracksoak.report.record.facts.inspection.ImpliedValue;

/** The session that a recording implies: what it shows, and what stays a guess, each with its reason. One thread. */
final class ImpliedSession {

    private static final String GUESS = "a guess: ";
    private static final String LIKE = "band-32";
    private static final int SMALLEST_CHUNK = 4096;
    private static final int LARGEST_CHUNK = 16 << 20;
    private static final long LONGEST_S = 86_400;
    private static final double LONGEST_BUFFER_S = 600;

    private final List<ImpliedValue> values = new ArrayList<>();
    private final Map<Key, String> comments = new EnumMap<>(Key.class);
    private final Session session;
    private boolean chunkShown;
    private final String inAdvance;

    private ImpliedSession(Take take, Recordings recordings, Path place) {
        Session like = SessionCatalog.shipped().find(LIKE);
        Session.Builder builder = like.but();
        builder.name(name(place)).title("As recorded: " + title(take)).about("");
        groups(take, builder);
        layout(take, builder);
        length(take, builder);
        fileLimit(take, recordings, builder, like);
        fileSystems(recordings, builder, like);
        ClusterEvidence clusters = ClusterEvidence.of(take, recordings);
        chunk(clusters, builder, like);
        inAdvance = clusters.inAdvance();
        values.add(new ImpliedValue(
                "space in advance", inAdvance, !inAdvance.startsWith("cannot"), "the file system's tables"));
        guess(Key.ARRIVAL, "burst", "files do not show when chunks fall due; this is the hard case");
        guess(Key.WRITERS, Integer.toString(like.writers()), "files do not show how many writes are in flight");
        guess(Key.FLUSH, Quantity.plain(like.flushS()) + " s", "files do not show it");
        guess(
                Key.BUFFER,
                Quantity.plain(like.bufferS()) + " s",
                "files do not show it; a stand-in drive measures it (tracksoak stand-in)");
        session = builder.build();
    }

    /**
     * The session of a take.
     *
     * @throws Problem if there is none, or its samples are of a kind that sessions do not know
     */
    static ImpliedSession of(@Nullable Take take, Recordings recordings, Path place) {
        if (take == null) {
            throw Problem.askedWrong(
                    "no session can be told, as no file of the recording could be looked into",
                    "leave --session-out out");
        }
        return new ImpliedSession(take, recordings, place);
    }

    /** Refuses a file that is there already. */
    static void mustBeNew(Path file) {
        if (Files.exists(file)) {
            throw Problem.askedWrong(
                    Inert.quoted(file) + " is there already; it is never written over",
                    "name a new file with --session-out");
        }
    }

    /** Every value, and what shows it. */
    List<ImpliedValue> values() {
        return values;
    }

    /** Writes the session file, unless there is one by now. */
    void write(Path file) {
        String text = "# From a recording, by tracksoak inspect. Whatever is marked as a guess was not shown by it.\n"
                + "# Space in advance: " + Inert.whole(inAdvance) + ".\n" + text();
        try {
            if (!AtomicFile.create(file, text.getBytes(StandardCharsets.UTF_8))) {
                mustBeNew(file);
            }
        } catch (IOException refused) {
            throw Problem.cannot(
                    "the session cannot be written to " + Inert.quoted(file) + " (" + Problem.reason(refused) + ")",
                    "name another file with --session-out");
        }
    }

    private String text() {
        Session fitting = session;
        while (true) {
            String text = SessionToml.write(fitting, comments);
            try {
                return SessionReader.read(text, "the session of the recording")
                                .name()
                                .isEmpty()
                        ? ""
                        : text;
            } catch (ProfileException contradicts) {
                if (fitting.chunkBytes() <= SMALLEST_CHUNK || fitting.bufferS() > LONGEST_BUFFER_S / 2) {
                    throw contradicts;
                }
                // of a chunk that was shown and a guessed buffer too short for it the guess gives way
                fitting = chunkShown
                        ? fitting.but().bufferS(2 * fitting.bufferS()).build()
                        : fitting.but()
                                .chunkBytes(Math.max(
                                        SMALLEST_CHUNK, fitting.chunkBytes() / 2 / SMALLEST_CHUNK * SMALLEST_CHUNK))
                                .build();
            }
        }
    }

    private void told(Key key, String value, String evidence) {
        values.add(new ImpliedValue(key.toml(), value, true, evidence));
        comments.put(key, "shown: " + evidence);
    }

    private void guess(Key key, String value, String why) {
        values.add(new ImpliedValue(key.toml(), value, false, why));
        comments.put(key, GUESS + why);
    }

    private void groups(Take take, Session.Builder builder) {
        Map<WaveFormat, Integer> tracks = new LinkedHashMap<>();
        for (TrackFiles track : take.tracks()) {
            WaveFormat format = track.format();
            tracks.merge(format.mono(), format.channels(), Integer::sum);
        }
        List<TrackGroup> groups = new ArrayList<>();
        tracks.forEach(
                (format, count) -> groups.add(new TrackGroup(count, format.sampleRateHz(), sampleFormat(format))));
        builder.groups(groups);
        String words = Count.list(groups.stream()
                .map(group -> Count.of(group.tracks(), "track") + " at " + Quantity.plain(group.sampleRateHz() / 1000.0)
                        + " kHz, " + group.format().words())
                .toList());
        values.add(new ImpliedValue(Key.TRACKS.toml(), words, true, "the files' headers"));
    }

    private static SampleFormat sampleFormat(WaveFormat format) {
        return format.sampleFormat()
                .orElseThrow(() ->
                        Problem.askedWrong("no session has samples of " + format.words(), "leave --session-out out"));
    }

    private void layout(Take take, Session.Builder builder) {
        boolean single = take.tracks().stream().allMatch(track -> track.format().channels() == 1);
        builder.layout(single ? FileLayout.FILE_PER_TRACK : FileLayout.INTERLEAVED);
        long formats = take.tracks().stream().map(TrackFiles::format).distinct().count();
        if (single || formats == take.tracks().size()) {
            told(
                    Key.LAYOUT,
                    single ? "file-per-track" : "interleaved",
                    single ? "every file holds one track" : "a file holds several tracks");
        } else {
            guess(
                    Key.LAYOUT,
                    "interleaved",
                    "there are several files of several tracks each, which no session can say");
        }
    }

    private void length(Take take, Session.Builder builder) {
        double longest =
                take.tracks().stream().mapToDouble(TrackFiles::seconds).max().orElse(0);
        long seconds = Math.max(1, Math.min(LONGEST_S, (long) Math.ceil(longest)));
        builder.lengthS(seconds);
        told(Key.LENGTH, Quantity.exactSeconds(seconds), "the longest track of this recording; write the show's own");
    }

    private void fileLimit(Take take, Recordings recordings, Session.Builder builder, Session like) {
        List<RecordedFile> full = take.tracks().stream()
                .flatMap(track -> track.files().subList(0, track.files().size() - 1).stream())
                .toList();
        long largest =
                full.stream().mapToLong(file -> file.header().fileBytes()).max().orElse(0);
        if (largest >= 1 << 20) {
            builder.fileLimitBytes(largest);
            told(
                    Key.FILE_LIMIT,
                    Count.number(largest) + " B",
                    "the size of the largest of " + Count.of(full.size(), "file") + " that another one continues");
        } else {
            Volume volume = recordings.volume();
            boolean fat = volume != null && volume.fileSystem().equals("fat32");
            builder.fileLimitBytes(fat ? FileLimit.FAT32.maxFileBytes() : like.fileLimitBytes());
            guess(
                    Key.FILE_LIMIT,
                    Count.number(fat ? FileLimit.FAT32.maxFileBytes() : like.fileLimitBytes()) + " B",
                    "no file was continued by another in this recording");
        }
    }

    private void fileSystems(Recordings recordings, Session.Builder builder, Session like) {
        Volume volume = recordings.volume();
        if (volume == null) {
            List<String> all = recordings.files().stream()
                            .allMatch(
                                    file -> FileLimit.FAT32.allows(file.header().fileBytes()))
                    ? like.fileSystems()
                    : like.fileSystems().stream()
                            .filter(type -> !type.equals("fat32"))
                            .toList();
            builder.fileSystems(all);
            guess(Key.FILE_SYSTEMS, String.join(", ", all), recordings.volumeUnknown());
        } else {
            builder.fileSystems(List.of(volume.fileSystem()));
            told(Key.FILE_SYSTEMS, volume.fileSystem(), "the recorder wrote to it; it may accept others, too");
        }
    }

    private void chunk(ClusterEvidence clusters, Session.Builder builder, Session like) {
        long bytes = clusters.chunkBytes();
        if (bytes >= SMALLEST_CHUNK && bytes <= LARGEST_CHUNK && bytes % SMALLEST_CHUNK == 0) {
            builder.chunkBytes((int) bytes);
            chunkShown = true;
            told(Key.CHUNK, Quantity.exactBytes(bytes), clusters.chunk());
        } else {
            guess(Key.CHUNK, Quantity.exactBytes(like.chunkBytes()), clusters.chunk());
        }
    }

    private static String name(Path place) {
        Path last = place.toAbsolutePath().normalize().getFileName();
        String name = (last == null ? "" : last.toString())
                .toLowerCase(Locale.ROOT)
                .replaceAll("[^a-z0-9]+", "-")
                .replaceAll("^-|-$", "");
        String kept = name.length() > 40 ? name.substring(0, 40).replaceAll("-$", "") : name;
        return kept.isEmpty() ? "recorded" : "as-" + kept;
    }

    private static String title(Take take) {
        String name = Inert.text(take.name());
        return name.length() > 80 ? name.substring(0, 80) : name;
    }
}
