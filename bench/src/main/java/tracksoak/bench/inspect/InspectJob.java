package tracksoak.bench.inspect;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.job.OffSwitch;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RunFolder;
import tracksoak.bench.job.Version;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.page.InspectPage;
import tracksoak.report.page.SheetFile;
import tracksoak.report.record.facts.inspection.Finding;
import tracksoak.report.record.facts.inspection.ImpliedValue;
import tracksoak.report.record.facts.inspection.InspectionRecord;
import tracksoak.report.record.json.RecordFormats;

/** Inspects a recording and keeps what it showed. Opens nothing of the recording for writing. One job at a time. */
public final class InspectJob {

    /** What is asked. */
    public record Order(
            UUID id, Path path, Path out, @Nullable Path sessionOut) {}

    /**
     * What came of it.
     *
     * @param files where record and page are, on the host
     * @param session the session file that was written; null where none was asked for
     */
    public record Done(
            InspectionRecord record,
            RunFolder files,
            @Nullable Path session) {}

    private final Rooms rooms;
    private final EpochClock clock;
    private final Progress progress;
    private final OffSwitch off = new OffSwitch();

    /** Hears how far it is. */
    @FunctionalInterface
    public interface Progress {

        /** So many bytes of samples were read, of so many. */
        void read(long doneBytes, long allBytes);
    }

    public InspectJob(Rooms rooms, EpochClock clock, Progress progress) {
        this.rooms = rooms;
        this.clock = clock;
        this.progress = progress;
    }

    /** Ends it. */
    public OffSwitch off() {
        return off;
    }

    /**
     * Does it.
     *
     * @return null if it was ended before its end; nothing is kept then
     * @throws tracksoak.profiles.base.Problem if there is no recording, or what came of it cannot be kept
     */
    public @Nullable Done run(Order order) {
        mustLieElsewhere(order.out(), order.path(), "--out");
        RunFolder files = RunFolder.in(order.out(), RunFolder.Kind.INSPECTION);
        Path sessionOut = order.sessionOut();
        if (sessionOut != null) {
            mustLieElsewhere(sessionOut, order.path(), "--session-out");
            ImpliedSession.mustBeNew(sessionOut);
        }
        Instant started = Instant.ofEpochMilli(clock.epochMillis());
        try (RecordingPlace place = RecordingPlace.open(rooms, order.path())) {
            Recordings recordings = place.recordings();
            Inspection inspection = new Inspection(recordings, progress, off::cancelled);
            inspection.run();
            if (off.cancelled()) {
                return null;
            }
            ImpliedSession implied = sessionOut == null
                    ? null
                    : ImpliedSession.of(inspection.mainTake().orElse(null), recordings, order.path());
            InspectionRecord record =
                    record(order, recordings, inspection, started, implied == null ? List.of() : implied.values());
            save(files, record);
            if (implied != null && sessionOut != null) {
                implied.write(sessionOut);
            }
            return new Done(record, files, sessionOut);
        }
    }

    private static void save(RunFolder files, InspectionRecord record) {
        try {
            AtomicFile.write(files.record(), RecordFormats.INSPECTION.bytes(record));
            SheetFile.write(files.page(), InspectPage.render(record));
        } catch (IOException refused) {
            throw Problem.cannot(
                    "record and page cannot be written to " + Inert.quoted(files.folder()) + " ("
                            + Problem.reason(refused) + ")",
                    "make room there, or name another folder with --out");
        }
    }

    /** Nothing is written beside what is looked at: it may be the only copy, on a drive that fails. */
    private static void mustLieElsewhere(Path out, Path recording, String option) {
        if (real(out).startsWith(real(recording))) {
            throw Problem.askedWrong(
                    Inert.quoted(out) + " lies in the recording itself, and nothing is written there",
                    "name a place elsewhere with " + option);
        }
    }

    /** Without links, as far as it is there. */
    private static Path real(Path path) {
        Path whole = path.toAbsolutePath();
        for (Path there = whole; there != null; there = there.getParent()) {
            try {
                return there.toRealPath().resolve(there.relativize(whole)).normalize();
            } catch (IOException none) {
                // the folder it is to lie in may be there
            }
        }
        return whole.normalize();
    }

    private InspectionRecord record(
            Order order, Recordings recordings, Inspection inspection, Instant started, List<ImpliedValue> session) {
        List<Finding> all = inspection.findings();
        InspectionJudge judge = new InspectionJudge(inspection.takes(), all);
        Path name = order.path().toAbsolutePath().normalize().getFileName();
        return new InspectionRecord(
                InspectionRecord.SCHEMA,
                order.id().toString(),
                Version.tool(),
                started.toString(),
                Instant.ofEpochMilli(clock.epochMillis()).toString(),
                name == null ? "/" : Findings.kept(name.toString()),
                inspection.bytesRead(),
                recordings.otherFiles(),
                judge.outcome(),
                judge.sentence(),
                judge.scope(inspection.bytesRead()),
                judge.advice(),
                judge.reasons(),
                inspection.volumeSeen(),
                inspection.takes(),
                all.stream().limit(InspectionRecord.MOST_FINDINGS).toList(),
                Math.max(0, all.size() - InspectionRecord.MOST_FINDINGS),
                session);
    }
}
