package tracksoak.report.record;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.Margins;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.TrackGroup;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.HostFacts;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.MethodFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.ProbeFacts;
import tracksoak.report.record.facts.ReadyFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Seed;
import tracksoak.report.record.facts.Verdict;

/** A run to be changed field by field, then made into a record; starts as a good sound-check. Tests only. */
public final class RunSketch {

    /** 32 tracks at 48 kHz/24-bit: 4.608 MB/s. */
    public static final long DEMAND = 4_608_000;

    public RunState state = RunState.COMPLETE;
    public String stateReason = "";
    public Session session = session("barn-32", 32);
    public PlanFacts plan = PlanFacts.of(PlanName.SOUND_CHECK, false, 300, 3600, 600, 100_000_000_000L);
    public IoMode ioMode = IoMode.DIRECT;
    public @Nullable String fileSystem = "exfat";
    public @Nullable Long freeBytes = 200_000_000_000L;
    public long fileSystemBytes = 240_000_000_000L;
    public @Nullable Double linkMbps = 5000.0;
    public long sizeBytes = 256_000_000_000L;
    public boolean linkSuspect;
    public List<PhaseSketch> phases = new ArrayList<>();
    public String id = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f";
    public String startedAt = "2026-02-14T18:00:00Z";
    public @Nullable String serial = "B4RN-0001";
    public @Nullable String tag;
    public @Nullable ReadyFacts ready;
    public @Nullable Verdict verdict;

    /** A sound-check in which every criterion is met. */
    public static RunSketch good() {
        RunSketch run = new RunSketch();
        run.phases.add(PhaseSketch.take(300, DEMAND));
        run.phases.add(PhaseSketch.fill(2000, 40e6));
        run.phases.add(PhaseSketch.take(600, DEMAND));
        run.phases.add(PhaseSketch.close());
        run.phases.add(PhaseSketch.readBack(900 * DEMAND + 80_000_000_000L));
        return run;
    }

    public DriveFacts.Port port = DriveFacts.Port.UNKNOWN;
    public DriveFacts.Volume volume = DriveFacts.Volume.UNKNOWN;
    public @Nullable Double temperatureC;
    public @Nullable ProbeFacts probes;

    /** A line-check in which every criterion is met. */
    public static RunSketch goodLineCheck() {
        RunSketch run = new RunSketch();
        run.plan = PlanFacts.of(PlanName.LINE_CHECK, false, 0, 0, 120, 600_000_000L);
        run.phases.add(PhaseSketch.take(120, DEMAND));
        run.phases.add(PhaseSketch.close());
        run.phases.add(PhaseSketch.readBack(120 * DEMAND));
        return run;
    }

    /** A recording session of three hours with a buffer of 2 s; all margins 2, longest stall 1 s, close 10 s. */
    public static Session session(String name, int tracks) {
        return session(name, tracks, SessionKind.RECORDING, 3 * 3600, 2);
    }

    public static Session session(String name, int tracks, SessionKind kind, long lengthS, double bufferS) {
        return Session.builder()
                .name(name)
                .title("Barn theatre, " + tracks + " tracks")
                .kind(kind)
                .groups(List.of(new TrackGroup(tracks, 48_000, SampleFormat.PCM_24)))
                .lengthS(lengthS)
                .layout(FileLayout.FILE_PER_TRACK)
                .chunkBytes(65_536)
                .arrival(Arrival.BURST)
                .writers(1)
                .flushS(10)
                .bufferS(bufferS)
                .bufferAssumed(true)
                .fileLimitBytes(4_294_967_295L)
                .fileSystems(List.of("exfat", "fat32"))
                .stallLimitMs(250)
                .margins(new Margins(2, 2, 2, 2, 1000, 10_000))
                .build();
    }

    /** Marks the plan as shortened. */
    public void shortened() {
        plan = PlanFacts.of(
                PlanName.of(plan.name()).orElseThrow(),
                true,
                plan.takeBeforeS(),
                plan.fillCapS(),
                plan.takeAfterS(),
                plan.bytesPlanned());
    }

    public PhaseSketch phase(PhaseKind kind) {
        return phases.stream().filter(p -> p.kind == kind).findFirst().orElseThrow();
    }

    public RunRecord record() {
        return new RunRecord(
                RunRecord.SCHEMA,
                id,
                "tracksoak 1.0.0",
                startedAt,
                "2026-02-14T18:50:00Z",
                state,
                stateReason,
                new Seed(-42),
                session,
                plan,
                DriveFacts.builder()
                        .rotational(false)
                        .system(false)
                        .maker("Makers of the Barn")
                        .model("Stick <64>")
                        .serial(serial)
                        .sizeBytes(sizeBytes)
                        .bus("usb")
                        .linkMbps(linkMbps)
                        .linkSuspect(linkSuspect)
                        .removable(true)
                        .node("sdb")
                        .mount("/media/barn")
                        .folder("/media/barn/tracksoak-1")
                        .fileSystem(fileSystem)
                        .fileSystemBytes(fileSystemBytes)
                        .port(port)
                        .volume(volume)
                        .temperatureC(temperatureC)
                        .freeBytes(freeBytes)
                        .clusterBytes(131_072L)
                        .build(),
                tag,
                new HostFacts("Linux 6.1", "amd64", null, 2, 8_000_000_000L, "17.0.1"),
                new MethodFacts(ioMode, "", 4096, 65_536, 30, 5, probes),
                ready,
                phases.stream().map(PhaseSketch::facts).toList(),
                verdict);
    }

    /** The same drive under other names. */
    public static DriveFacts named(
            DriveFacts like, @Nullable String maker, @Nullable String model, @Nullable String serial) {
        return like.but().maker(maker).model(model).serial(serial).build();
    }

    /** The same session in other words, mixed down to {@code mix}. */
    public static Session titled(Session like, String title, String about, List<TrackGroup> mix) {
        return like.but().title(title).about(about).mix(mix).build();
    }
}
