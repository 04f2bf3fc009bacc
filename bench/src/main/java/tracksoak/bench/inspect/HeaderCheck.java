package tracksoak.bench.inspect;

import java.util.ArrayList;
import java.util.List;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.WaveHeader;
import tracksoak.report.record.facts.inspection.Finding.Weight;
import tracksoak.report.record.facts.inspection.FindingKind;

/** What is wrong with the headers of one line of files, and with how its splits follow each other. Pure. */
final class HeaderCheck {

    private final TrackLine line;
    private final List<Found> found = new ArrayList<>();

    private HeaderCheck(TrackLine line) {
        this.line = line;
    }

    static List<Found> of(TrackLine line) {
        HeaderCheck check = new HeaderCheck(line);
        long base = 0;
        for (RecordedFile file : line.inTime()) {
            check.header(file, base);
            base += file.samples();
        }
        check.splits();
        return check.found;
    }

    private void add(FindingKind kind, Weight weight, RecordedFile file, long atSample, double samples) {
        found.add(line.found(kind, weight, line.name(), atSample, samples, file.path()));
    }

    private void header(RecordedFile file, long base) {
        WaveHeader header = file.header();
        int frame = header.format().frameBytes();
        long end = base + header.samples();
        switch (header.finish()) {
            case NEVER -> add(FindingKind.HEADER_UNFINISHED, Weight.FAULT, file, end, 0);
            case CUT ->
                add(
                        FindingKind.FILE_CUT,
                        Weight.FAULT,
                        file,
                        end,
                        Math.ceil((double) (header.toldBytes() - header.presentBytes()) / frame));
            case BEHIND ->
                add(
                        FindingKind.AUDIO_BEHIND,
                        Weight.FAULT,
                        file,
                        end,
                        Math.floor((double) header.behindBytes() / frame));
            case DONE -> done(file, header, end);
        }
        if (header.samples() == 0) {
            add(FindingKind.EMPTY, Weight.FAULT, file, base, 0);
        }
        if (!header.format().equals(line.format())) {
            add(FindingKind.UNLIKE_SPLITS, Weight.FAULT, file, base, 0);
        }
    }

    private void done(RecordedFile file, WaveHeader header, long end) {
        if (header.brokenBytes() > 0) {
            add(FindingKind.BROKEN_SAMPLE, Weight.FAULT, file, end, 0);
        }
        if (header.outerBytes() < 0) {
            add(FindingKind.HEADER_UNFINISHED, Weight.FAULT, file, end, 0);
        } else if (Math.abs(header.outerBytes() - (header.fileBytes() - header.behindBytes())) > 1) {
            add(FindingKind.OUTER_SIZE, Weight.NOTE, file, end, 0);
        }
        if (header.behindBytes() > 0) {
            add(
                    FindingKind.SPACE_LEFT,
                    Weight.NOTE,
                    file,
                    end,
                    Math.floor((double) header.behindBytes() / header.format().frameBytes()));
        }
    }

    private void splits() {
        List<RecordedFile> inTime = line.inTime();
        List<RecordedFile> byName = line.track().files();
        long base = 0;
        boolean timed = TrackLine.timed(line.track());
        for (int i = 0; i < inTime.size(); i++) {
            if (!inTime.get(i).path().equals(byName.get(i).path())) {
                add(FindingKind.SWAPPED, Weight.FAULT, byName.get(i), base, 0);
                break;
            }
            base += inTime.get(i).samples();
        }
        long end = inTime.get(0).samples();
        for (int i = 1; i < inTime.size(); i++) {
            RecordedFile before = inTime.get(i - 1);
            RecordedFile file = inTime.get(i);
            boolean skipped = skips(before, file);
            if (timed) {
                apart(before, file, end, skipped);
            } else if (skipped) {
                add(FindingKind.MISSING_SPLIT, Weight.LISTEN, file, end, 0);
            }
            end += file.samples();
        }
    }

    private void apart(RecordedFile before, RecordedFile file, long end, boolean skipped) {
        long gap = TrackLine.reference(file) - TrackLine.reference(before) - before.samples();
        if (gap == 0) {
            return;
        }
        Weight weight = roundTimes(gap) ? Weight.LISTEN : Weight.FAULT;
        if (gap < 0) {
            add(FindingKind.OVERLAP, weight, file, end, (double) -gap);
        } else if (skipped && gap > before.samples() / 2) {
            add(FindingKind.MISSING_SPLIT, Weight.FAULT, file, end, (double) gap);
        } else {
            add(FindingKind.GAP, weight, file, end, (double) gap);
        }
    }

    /** A recorder that tells its times in whole seconds only cannot tell a gap below one. */
    private boolean roundTimes(long gap) {
        int rate = line.format().sampleRateHz();
        return Math.abs(gap) < rate
                && line.inTime().stream().allMatch(file -> TrackLine.reference(file) % rate == 0)
                && line.inTime().subList(0, line.inTime().size() - 1).stream()
                        .noneMatch(file -> file.samples() % rate == 0);
    }

    private boolean skips(RecordedFile before, RecordedFile file) {
        List<Integer> numbers = line.track().numbers();
        if (numbers == null) {
            return false;
        }
        int first = numbers.get(line.track().files().indexOf(before));
        int second = numbers.get(line.track().files().indexOf(file));
        return second > first + 1;
    }
}
