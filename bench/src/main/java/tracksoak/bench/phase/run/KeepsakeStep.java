package tracksoak.bench.phase.run;

import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.phase.timeleft.WorkAhead;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.report.record.facts.KeepsakeFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/** Reads what an earlier run left on the drive, before anything is written. */
final class KeepsakeStep implements Step {

    private static final double DAY_S = 86_400;

    private final Bench bench;
    private final Keepsake keepsake;

    KeepsakeStep(Bench bench, Keepsake keepsake) {
        this.bench = bench;
        this.keepsake = keepsake;
    }

    @Override
    public PhaseKind kind() {
        return PhaseKind.KEEPSAKE;
    }

    @Override
    public double expectedS(WorkAhead ahead) {
        return keepsake.drive() == null
                ? 0
                : ahead.pace.secondsToRead((double) keepsake.list().bytes());
    }

    @Override
    public PhaseFacts go() {
        Drive given = keepsake.drive();
        if (given == null) {
            PhaseFacts.Builder notes = notes(keepsake.list().files().size());
            notes.complete(true);
            return notes.build();
        }
        Drive drive = bench.watched(given);
        List<WrittenFile> there = new ArrayList<>();
        long startNs = bench.clock.nanoTime();
        WatchedExecutor.Outcome looked = bench.executor.work(List.of(stop -> there.addAll(there(drive))), () -> {});
        PhaseFacts.Builder notes = notes(keepsake.list().files().size() - there.size());
        if (!looked.done()) {
            notes.keepsake(facts(0));
            notes.fault(bench.fault(looked, startNs, 0));
            return notes.build();
        }
        if (there.isEmpty()) {
            notes.complete(true);
            return notes.build();
        }
        return new ReadBackPhase(bench, drive, keepsake.list().runNumber(), there, notes).read();
    }

    private List<WrittenFile> there(Drive drive) throws IOException {
        Set<String> names = new HashSet<>(drive.list());
        return keepsake.list().files().stream()
                .filter(file -> names.contains(file.name()))
                .toList();
    }

    private PhaseFacts.Builder notes(int gone) {
        PhaseFacts.Builder notes = bench.notes(PhaseKind.KEEPSAKE);
        notes.keepsake(facts(gone));
        return notes;
    }

    private KeepsakeFacts facts(int gone) {
        Instant written = Instant.parse(keepsake.list().writtenAt());
        Duration lain = Duration.between(written, Instant.ofEpochMilli(bench.epoch.epochMillis()));
        return new KeepsakeFacts(
                keepsake.list().runId(),
                keepsake.list().writtenAt(),
                Math.max(0, lain.toSeconds() / DAY_S),
                keepsake.list().bytes(),
                keepsake.list().files().size(),
                gone,
                keepsake.known());
    }
}
