package tracksoak.bench.inspect;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.Take;
import tracksoak.bench.recording.TakeFinder;
import tracksoak.bench.recording.TrackFiles;
import tracksoak.bench.timecode.SignalProbe;
import tracksoak.bench.timecode.SignalTrace;
import tracksoak.bench.volume.Volume;
import tracksoak.report.record.facts.inspection.Finding;
import tracksoak.report.record.facts.inspection.Finding.Weight;
import tracksoak.report.record.facts.inspection.FindingKind;
import tracksoak.report.record.facts.inspection.InspectedFile;
import tracksoak.report.record.facts.inspection.InspectedTake;
import tracksoak.report.record.facts.inspection.InspectedTrack;
import tracksoak.report.record.facts.inspection.SignalFacts;
import tracksoak.report.record.facts.inspection.VolumeSeen;

/** Looks at recordings: every header, every sample, and how tracks and splits fit together. Memory stays flat. One thread. */
final class Inspection {

    private static final int SEVERAL = 3;

    private final Recordings recordings;
    private final InspectJob.Progress listener;
    private final BooleanSupplier stop;
    private final ByteBuffer room = TrackScan.room();
    private final Findings findings = new Findings();
    private final List<InspectedTake> takes = new ArrayList<>();
    private final List<Take> found;
    private final long allBytes;
    private long doneBytes;
    private boolean sharesPlace;

    Inspection(Recordings recordings, InspectJob.Progress listener, BooleanSupplier stop) {
        this.recordings = recordings;
        this.listener = listener;
        this.stop = stop;
        found = TakeFinder.takes(recordings.files(), Seam::shows);
        allBytes = recordings.files().stream()
                .mapToLong(file -> file.header().presentBytes())
                .sum();
    }

    /** Looks at all of it. */
    void run() {
        for (Recordings.Broken broken : recordings.broken()) {
            findings.add("", 0, List.of(broken(broken)));
        }
        for (Take take : found) {
            if (!stop.getAsBoolean()) {
                take(take);
            }
        }
        volume();
    }

    private static Found broken(Recordings.Broken broken) {
        return broken.kind() == FindingKind.HEADER_CUT
                ? new Found(broken.kind(), broken.weight(), broken.path(), 0.0, 0L, null, 0, true, broken.why())
                : Found.whole(broken.kind(), broken.weight(), broken.path(), broken.why());
    }

    private void take(Take take) {
        Double start = take.tracks().stream()
                .map(TrackLine::startS)
                .filter(Objects::nonNull)
                .min(Double::compare)
                .orElse(null);
        List<TrackLine> lines =
                take.tracks().stream().map(track -> TrackLine.of(track, start)).toList();
        int tracks = lines.stream().mapToInt(line -> line.format().channels()).sum();
        List<InspectedTrack> inspected = new ArrayList<>();
        List<InspectedFile> files = new ArrayList<>();
        List<SignalTogether.Carrier> carriers = new ArrayList<>();
        List<Found> signal = new ArrayList<>();
        List<SilentEnds.Looked> looked = new ArrayList<>();
        List<Found> ofTake = new ArrayList<>();
        for (TrackLine line : lines) {
            ofTake.addAll(HeaderCheck.of(line));
            List<Found> shared = SharedPlaces.of(line, recordings);
            sharesPlace |= !shared.isEmpty();
            ofTake.addAll(shared);
            TrackScan scan = new TrackScan(
                    line,
                    room,
                    bytes -> {
                        doneBytes += bytes;
                        listener.read(doneBytes, allBytes);
                    },
                    stop);
            List<ScannedTrack> scanned = scan.scan();
            ofTake.addAll(scan.found());
            for (ScannedTrack track : scanned) {
                signal.addAll(SignalCheck.of(track, line));
                SignalTrace trace = track.trace();
                if (trace != null && trace.found()) {
                    carriers.add(new SignalTogether.Carrier(track, trace, line));
                }
                inspected.add(track(track, line, files.size()));
            }
            looked.add(new SilentEnds.Looked(line, scanned, scan.atBorders()));
            line.inTime().forEach(file -> files.add(file(file)));
        }
        ofTake.addAll(SignalTogether.weighed(signal, carriers));
        ofTake.addAll(SignalTogether.of(carriers));
        ofTake.addAll(SilentEnds.of(looked));
        ofTake.addAll(
                besides(looked.stream().flatMap(one -> one.tracks().stream()).toList(), carriers.size()));
        if (take.certain()) {
            ofTake.addAll(lengths(lines, ofTake));
        } else {
            ofTake.add(Found.whole(FindingKind.UNCERTAIN, Weight.LISTEN, take.name(), ""));
        }
        if (take.mayGoOn()) {
            ofTake.add(Found.whole(FindingKind.UNCERTAIN, Weight.LISTEN, take.name(), FindingText.MAY_GO_ON));
        }
        if (take.firstNumber() > 0 && lines.stream().anyMatch(TrackLine::surelySplits)) {
            ofTake.add(Found.whole(
                    FindingKind.MISSING_SPLIT, Weight.LISTEN, take.name(), Integer.toString(take.firstNumber())));
        }
        ofTake.replaceAll(one -> UnfinishedEnds.of(one, looked));
        NotReadSplits notRead = new NotReadSplits(lines, recordings.broken());
        ofTake.removeIf(notRead::mayHold);
        findings.add(take.name(), tracks, lines.stream().anyMatch(TrackLine::surelySplit) ? seams(ofTake) : ofTake);
        double seconds = lines.stream()
                .mapToDouble(line -> line.startS() + line.track().seconds())
                .max()
                .orElse(0);
        takes.add(new InspectedTake(Findings.kept(take.name()), Math.max(0, seconds), inspected, files));
    }

    /** One track may begin a note right at a split; several do not, but where another take begins. */
    private static List<Found> seams(List<Found> found) {
        return found.stream()
                .map(one -> one.kind() == FindingKind.SEAM
                                && found.stream()
                                                .filter(other -> other.kind() == FindingKind.SEAM
                                                        && Objects.equals(other.atSample(), one.atSample()))
                                                .count()
                                        >= SEVERAL
                        ? one.weighing(Weight.FAULT)
                        : one)
                .toList();
    }

    /** Where the signal or the header shows what is missing, the length says nothing more. */
    private static List<Found> lengths(List<TrackLine> lines, List<Found> known) {
        return TakeCheck.of(lines).stream()
                .filter(one -> one.kind() != FindingKind.UNEQUAL_LENGTH
                        || known.stream()
                                .noneMatch(other -> other.where().equals(one.where())
                                        && (other.kind() == FindingKind.SIGNAL_MISSING
                                                || other.kind() == FindingKind.SIGNAL_REPEATED
                                                || other.kind() == FindingKind.AUDIO_BEHIND
                                                || other.kind() == FindingKind.GAP
                                                || other.kind() == FindingKind.OVERLAP)))
                .toList();
    }

    private List<Found> besides(List<ScannedTrack> tracks, int carriers) {
        List<Found> besides = new ArrayList<>();
        // of files that each stand alone one may be a channel that was muted
        boolean allSilent =
                (tracks.size() > 1 || found.size() == 1) && tracks.stream().allMatch(ScannedTrack::silent);
        for (ScannedTrack track : tracks) {
            SignalTrace trace = track.trace();
            boolean carries = trace != null && trace.found();
            if (track.silent()) {
                besides.add(Found.whole(FindingKind.SILENT, allSilent ? Weight.LISTEN : Weight.NOTE, track.name(), ""));
            }
            if (carriers > 0 && !carries) {
                besides.add(Found.whole(FindingKind.NO_SIGNAL, Weight.NOTE, track.name(), ""));
            }
            if (track.carries() == SignalProbe.Carries.OTHER_TIMECODE) {
                besides.add(Found.whole(FindingKind.OTHER_TIMECODE, Weight.NOTE, track.name(), ""));
            }
        }
        return besides;
    }

    private void volume() {
        Volume volume = recordings.volume();
        if (volume == null) {
            return;
        }
        List<Found> marks = new ArrayList<>();
        if (volume.dirty() && !recordings.mounted()) {
            marks.add(Found.whole(FindingKind.DIRTY, Weight.LISTEN, "", ""));
        }
        if (volume.mediaFailure()) {
            marks.add(Found.whole(FindingKind.MEDIA_FAILURE, Weight.FAULT, "", ""));
        }
        if (!recordings.mounted()) {
            // of which tracks share their place it was told where
            List<String> untold = sharesPlace ? volume.troubles() : volume.contradictions();
            untold.forEach(one -> marks.add(Found.whole(FindingKind.TABLES, Weight.FAULT, "", one)));
        }
        findings.add("", 0, marks);
    }

    private static InspectedTrack track(ScannedTrack track, TrackLine line, int firstFile) {
        SignalTrace trace = track.trace();
        return new InspectedTrack(
                Findings.kept(track.name()),
                line.format().sampleRateHz(),
                line.format().bytesPerSample(),
                line.format().isFloat(),
                line.format().channels(),
                line.track().samples(),
                firstFile,
                line.inTime().size(),
                track.silent(),
                trace == null || !trace.found()
                        ? null
                        : new SignalFacts(
                                trace.frames(),
                                trace.exact(),
                                Math.max(0, line.place(trace.from()).seconds()),
                                Math.max(0, line.place(trace.until()).seconds()),
                                trace.ppm(),
                                trace.breaks().size() + trace.moreBreaks()));
    }

    private static InspectedFile file(RecordedFile file) {
        return new InspectedFile(
                Findings.kept(file.path()),
                file.header().container().name(),
                file.header().fileBytes(),
                file.samples(),
                switch (file.header().finish()) {
                    case DONE -> InspectedFile.Header.DONE;
                    case NEVER -> InspectedFile.Header.NEVER;
                    case CUT -> InspectedFile.Header.CUT;
                    case BEHIND -> InspectedFile.Header.BEHIND;
                },
                file.header().timeReference());
    }

    List<InspectedTake> takes() {
        return takes;
    }

    List<Finding> findings() {
        return findings.all();
    }

    long bytesRead() {
        return doneBytes;
    }

    /** The file system by its tables; null where they could not be read. */
    @Nullable
    VolumeSeen volumeSeen() {
        Volume volume = recordings.volume();
        return volume == null
                ? null
                : new VolumeSeen(
                        volume.fileSystem(),
                        volume.clusterBytes(),
                        recordings.mounted(),
                        volume.dirty(),
                        volume.mediaFailure());
    }

    /** The take whose tracks hold most; empty where no file could be looked into. */
    Optional<Take> mainTake() {
        return found.stream().max(Comparator.comparingLong(Inspection::bytes));
    }

    private static long bytes(Take take) {
        return take.tracks().stream()
                .map(TrackFiles::files)
                .flatMap(List::stream)
                .mapToLong(file -> file.header().presentBytes())
                .sum();
    }
}
