package tracksoak.report.record;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Seed;
import tracksoak.report.record.facts.drill.DrillFile;
import tracksoak.report.record.facts.drill.DrillPull;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.facts.drill.DrillReturn;
import tracksoak.report.record.facts.drill.DrillStop;
import tracksoak.report.record.facts.drill.DrillTrack;
import tracksoak.report.verdict.DrillJudge;

/** A drill to be changed field by field, then made into a record. Tests only. */
public final class DrillSketch {

    /** 48,000 Hz × 3 B (arithmetic; rate from AES5). */
    public static final long RATE = 144_000;

    public DrillRecord.State state = DrillRecord.State.COMPLETE;
    public String stateReason = "";
    public @Nullable String maker = "Barley";
    public @Nullable DrillStop stop = new DrillStop(5, 120);
    public @Nullable DrillPull pull = new DrillPull(
            20, 19.8, 10, new Fault(Fault.Kind.GONE, 20.1, 5_000_000, "a call to the drive", "Input/output error"));
    public @Nullable DrillReturn back = new DrillReturn(
            31,
            "sdc",
            "/media/crew/BARLEY",
            "/media/crew/BARLEY/TRACKSOAK-00000001",
            false,
            true,
            ReadBackFacts.Origin.DEVICE);
    public final List<DrillTrack> tracks = new ArrayList<>();
    public final List<DrillFile> files = new ArrayList<>();

    /** Two tracks: 20 s made, 18 s written, 10 s flushed; the first can be read to the flush, the second to the last write. */
    public static DrillSketch twoTracks() {
        DrillSketch drill = new DrillSketch();
        drill.tracks.add(new DrillTrack(1, 1, RATE, 20 * RATE, 0, 18 * RATE, 10 * RATE, 10 * RATE, 0L));
        drill.tracks.add(new DrillTrack(2, 1, RATE, 20 * RATE, 0, 18 * RATE, 10 * RATE, 18 * RATE, 0L));
        for (int track = 1; track <= 2; track++) {
            String name = "-track-000" + track + "-part-001.soak";
            drill.files.add(new DrillFile(
                    "stopped" + name, true, track, 5 * RATE, 5 * RATE + 4096, 5 * RATE, 5 * RATE, DrillFile.Use.OPENS));
            long readable = track == 1 ? 10 * RATE : 18 * RATE;
            drill.files.add(new DrillFile(
                    "pulled" + name, false, track, 18 * RATE, readable + 4096, null, readable, DrillFile.Use.REPAIR));
        }
        return drill;
    }

    /** The record; judged where it is complete. */
    public DrillRecord record() {
        RunRecord run = RunSketch.good().record();
        DriveFacts drive = run.drive();
        DrillRecord facts = new DrillRecord(
                DrillRecord.SCHEMA,
                run.id(),
                run.tool(),
                run.startedAt(),
                state == DrillRecord.State.RUNNING ? null : run.endedAt(),
                state,
                stateReason,
                new Seed(-7),
                run.session(),
                RunSketch.named(drive, maker, drive.model(), drive.serial()),
                run.host(),
                run.method(),
                stop,
                pull,
                back,
                tracks,
                files,
                null);
        return state == DrillRecord.State.COMPLETE ? facts.withFindings(DrillJudge.of(facts)) : facts;
    }
}
