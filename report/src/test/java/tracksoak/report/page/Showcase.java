package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.Margins;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.TrackGroup;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.HostFacts;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.MethodFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.ReadBackFacts.Origin;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Seed;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.facts.Verdict.Outcome;

/** Records of an invented touring community theatre's drives: all figures made up, the same every time. */
final class Showcase {

    private static final long SEED = 20260314;
    private static final PlanFacts SOUND_CHECK =
            PlanFacts.of(PlanName.SOUND_CHECK, false, 300, 3600, 600, 54_000_000_000L);

    private Showcase() {}

    static RunRecord pass() {
        List<PhaseFacts> phases = List.of(
                new TakeMaker(1, "2026-03-14T18:05:00Z", 300, 300, 32)
                        .stall(171.4, 262)
                        .make(),
                OtherPhases.fill(2, 820, 61e6, 33e6, 18_400_000_000L, null),
                new TakeMaker(3, "2026-03-14T18:24:10Z", 600, 600, 41)
                        .stall(88.2, 310)
                        .stall(402.7, 455)
                        .make(),
                OtherPhases.close(82, 41, 512, 12, 95, 32),
                OtherPhases.readBack(
                        new ReadBackFacts(9_800_000, 9_800_000, 0, 0, 0, 0, 0, 0, Origin.DEVICE, List.of()),
                        402,
                        null));
        return record(
                "019cef10-3a00-7c51-8e01-5a0000000001",
                RunState.COMPLETE,
                "",
                SOUND_CHECK,
                drive("Lanternworks", "Wick 64", "S-007"),
                phases,
                new Verdict(
                                Outcome.PASS,
                                "This drive carries 32 tracks with margin to spare.",
                                "Sound-check on the drive as it is: 15 min of takes, 44.2 GB written, 69 % of the"
                                        + " drive covered.",
                                "rec-32",
                                fitting(List.of(
                                        met("lost-audio", "0 ms", "0 ms", null, "No audio was lost."),
                                        met(
                                                "buffer-margin",
                                                "1.5×",
                                                "495 ms of 2 s",
                                                4.04,
                                                "The buffer was never more than a quarter full."),
                                        met(
                                                "rate-margin",
                                                "1.5×",
                                                "30.7 MB/s for 4.61 MB/s",
                                                6.66,
                                                "The drive writes faster than the session asks, even past the cliff."),
                                        met(
                                                "longest-stall",
                                                "1 s",
                                                "455 ms",
                                                2.19,
                                                "The longest stall is well inside what is allowed."),
                                        met(
                                                "close-time",
                                                "10 s",
                                                "742 ms",
                                                13.4,
                                                "It is safe to unplug within a second of stop."),
                                        intact("9,800,000"))),
                                List.of(),
                                List.of("The recorder's buffer of 2 s is a guess: measure yours and set it in the"
                                        + " session, or give it with --buffer."))
                        .with(OddsMaker.oneInFourHundred()));
    }

    static RunRecord fail() {
        TakeMaker last = new TakeMaker(13, "2026-03-14T19:12:10Z", 600, 600, 96);
        double[][] stalls = {
            {21.3, 410},
            {74.9, 520},
            {112.2, 930},
            {149.6, 388},
            {187.1, 1240},
            {224.4, 476},
            {262, 2310},
            {299.5, 610},
            {337.2, 355},
            {374.6, 1120},
            {412.1, 2640},
            {449.7, 540},
            {487, 690},
            {524.4, 2120},
            {561.8, 430},
            {588, 300},
            {39.9, 290},
            {505.1, 270}
        };
        for (double[] stall : stalls) {
            last.stall(stall[0], stall[1]);
        }
        List<PhaseFacts> phases = List.of(
                new TakeMaker(11, "2026-03-14T18:55:00Z", 300, 300, 55)
                        .stall(201.7, 340)
                        .make(),
                OtherPhases.fill(12, 900, 28.4e6, 5.1e6, 7_900_000_000L, null),
                last.make(),
                OtherPhases.close(1840, 920, 6900, 60, 2210, 32),
                OtherPhases.readBack(
                        new ReadBackFacts(3_430_000, 3_430_000, 0, 0, 0, 0, 0, 0, Origin.DEVICE, List.of()),
                        611,
                        null));
        return record(
                "019cef3d-c2e0-7a07-9b14-5a0000000014",
                RunState.COMPLETE,
                "",
                SOUND_CHECK,
                drive("Lanternworks", "Pocket 32", "S-014"),
                phases,
                new Verdict(
                                Outcome.FAIL,
                                "This drive loses audio once its fast cache is full.",
                                "Sound-check on the drive as it is: 15 min of takes, 16.2 GB written, 51 % of the"
                                        + " drive covered.",
                                "rec-32",
                                fitting(List.of(
                                        missed(
                                                "lost-audio",
                                                "0 ms",
                                                "1.07 s",
                                                null,
                                                "More than a second of every track was lost in 3 overruns."),
                                        missed("buffer-margin", "1.5×", "2 s of 2 s", 1.0, "The buffer ran full."),
                                        missed(
                                                "rate-margin",
                                                "1.5×",
                                                "4.74 MB/s for 4.61 MB/s",
                                                1.02,
                                                "Past the cliff the drive is hardly faster than the session."),
                                        missed(
                                                "longest-stall",
                                                "1 s",
                                                "2.64 s",
                                                0.37,
                                                "The drive stood still for longer than the session allows."),
                                        missed(
                                                "close-time",
                                                "10 s",
                                                "11.9 s",
                                                0.83,
                                                "It takes too long until it is safe to unplug."),
                                        intact("3,430,000"))),
                                List.of(),
                                List.of("The recorder's buffer of 2 s is a guess: measure yours and set it in the"
                                        + " session, or give it with --buffer."))
                        .with(OddsMaker.none()));
    }

    /** Stopped by hand in the first take, with a host that was busy. */
    static RunRecord interrupted() {
        PhaseFacts take = new TakeMaker(21, "2026-03-14T20:00:00Z", 47, 120, 30)
                .hostDelay(31, 640)
                .fault(new Fault(Fault.Kind.INTERRUPTED, 47, 216_000_000, "the take", ""))
                .make();
        return record(
                "019cef79-5b00-7d22-a121-5a0000000021",
                RunState.INTERRUPTED,
                "stopped from the keyboard",
                PlanFacts.of(PlanName.LINE_CHECK, true, 0, 0, 60, 560_000_000L),
                DriveFacts.builder()
                        .linkMbps(12.0)
                        .linkSuspect(true)
                        .folder("/media/stick/tracksoak-21")
                        .checkByHand(
                                List.of("Which port the drive sits on: look for the mark of a fast port beside it."))
                        .build(),
                List.of(take),
                new Verdict(
                        Outcome.NO_VERDICT,
                        "The run was stopped before it could show anything.",
                        "Shortened line-check, stopped after 47 s of a take; 216 MB written.",
                        "rec-32",
                        List.of(
                                open(
                                        "lost-audio",
                                        "0 ms",
                                        "0 ms in 47 s",
                                        true,
                                        "Nothing was lost, but the run is too short to say so."),
                                open(
                                        "buffer-margin",
                                        "1.5×",
                                        "670 ms of 2 s",
                                        true,
                                        "The peak came while the computer itself stood still for 640 ms."),
                                open("intact", "every block", "not tested", false, "Nothing was read back."),
                                open(
                                        "room",
                                        "49.8 GB",
                                        "not tested",
                                        false,
                                        "The size of the file system is not known.")),
                        List.of(
                                "A person stopped the run after 47 s of 60 s.",
                                "The computer stood still for 640 ms while the backlog peaked, so the drive may not be"
                                        + " to blame."),
                        List.of()));
    }

    /** A drive that holds less than it says. */
    static RunRecord misplaced() {
        List<PhaseFacts> phases = List.of(
                new TakeMaker(31, "2026-03-14T20:20:00Z", 120, 120, 28).make(),
                OtherPhases.close(60, 30, 300, 9, 80, 32),
                OtherPhases.readBack(
                        new ReadBackFacts(
                                136_000,
                                92_000,
                                1_000,
                                400,
                                42_000,
                                88,
                                512,
                                0,
                                Origin.UNKNOWN,
                                List.of(
                                        "track-003-part-1.soak, block 1,204: holds the stamp of track 17, block 88",
                                        "track-003-part-1.soak, block 1,205: holds the stamp of track 17, block 89",
                                        "track-009-part-1.soak, block 14: checksum does not fit")),
                        71,
                        new Fault(
                                Fault.Kind.IO_ERROR,
                                70.2,
                                555_000_000,
                                "read of track-031-part-1.soak",
                                "Input/output error")));
        return record(
                "019cef8b-aa80-7e33-b231-5a0000000031",
                RunState.COMPLETE,
                "",
                PlanFacts.of(PlanName.LINE_CHECK, false, 0, 0, 120, 560_000_000L),
                drive("Moth & Lamp", "Endless 1T", "0000"),
                phases,
                new Verdict(
                        Outcome.FAIL,
                        "This drive does not give back what was written: it holds less than it says.",
                        "Line-check: 2 min of take, 557 MB written, 0.9 % of the drive covered.",
                        "rec-32",
                        List.of(
                                met("lost-audio", "0 ms", "0 ms", null, "No audio was lost."),
                                missed(
                                        "intact",
                                        "every block",
                                        "92,000 of 136,000 blocks",
                                        null,
                                        "44,000 blocks did not come back as written."),
                                met("format", "fat32, exfat", "exfat", null, "The recorder takes this file system.")),
                        List.of(),
                        List.of()));
    }

    /** A take of twelve hours, which must stay a page one can open. */
    static RunRecord twelveHours() {
        TakeMaker take = new TakeMaker(41, "2026-03-15T09:00:00Z", 43_200, 43_200, 38);
        for (int k = 0; k < 400; k++) {
            take.stall(60 + k * 107.3, 260 + (k * k * 37) % 900 * (k % 5 == 0 ? 1 : 0.3));
        }
        RunRecord like = pass();
        return record(
                "019cf284-0000-7f44-8341-5a0000000041",
                RunState.COMPLETE,
                "",
                PlanFacts.of(PlanName.FULL_SHOW, false, 0, 0, 43_200, 220_000_000_000L),
                like.drive(),
                List.of(take.make(), like.phases().get(3), like.phases().get(4)),
                Objects.requireNonNull(like.verdict()));
    }

    static Session session() {
        return Session.builder()
                .name("rec-32")
                .title("Evening show on tour")
                .about("The evening show as it tours: every input of the small desk, from walk-in to walk-out.")
                .kind(SessionKind.RECORDING)
                .groups(List.of(new TrackGroup(32, 48_000, SampleFormat.PCM_24)))
                .lengthS(10_800)
                .layout(FileLayout.FILE_PER_TRACK)
                .chunkBytes(65_536)
                .arrival(Arrival.BURST)
                .writers(1)
                .flushS(10)
                .bufferS(2)
                .bufferAssumed(true)
                .fileLimitBytes(4_294_967_295L)
                .fileSystems(List.of("fat32", "exfat"))
                .stallLimitMs(250)
                .margins(new Margins(1.5, 1.5, 2, 1.2, 1000, 10_000))
                .build();
    }

    static DriveFacts drive(String maker, String model, String serial) {
        return DriveFacts.builder()
                .rotational(false)
                .system(false)
                .maker(maker)
                .model(model)
                .serial(serial)
                .sizeBytes(64_000_000_000L)
                .bus("usb")
                .linkMbps(5000.0)
                .removable(true)
                .node("sdb")
                .mount("/media/" + serial)
                .folder("/media/" + serial + "/tracksoak-run")
                .fileSystem("exfat")
                .fileSystemBytes(63_900_000_000L)
                .freeBytes(61_200_000_000L)
                .clusterBytes(131_072L)
                .build();
    }

    static RunRecord record(
            String id,
            RunState state,
            String reason,
            PlanFacts plan,
            DriveFacts drive,
            List<PhaseFacts> phases,
            @Nullable Verdict verdict) {
        return new RunRecord(
                RunRecord.SCHEMA,
                id,
                "tracksoak 1.0.0",
                "2026-03-14T18:05:00Z",
                state == RunState.RUNNING ? null : "2026-03-14T18:49:12Z",
                state,
                reason,
                new Seed(SEED),
                session(),
                plan,
                drive,
                null,
                new HostFacts("Linux 6.1", "x86-64", null, 4, 8_000_000_000L, "17.0.9"),
                new MethodFacts(IoMode.DIRECT, "", 4096, 65_536, 30, 5, null),
                null,
                phases,
                verdict);
    }

    /** What was measured, and all that a session of {@link #session} and a drive of {@link #drive} have by themselves. */
    private static List<Criterion> fitting(List<Criterion> measured) {
        List<Criterion> all = new ArrayList<>(measured);
        all.add(met("room", "49.8 GB", "58 GB", 1.16, "The session fits, split into files of at most 4.29 GB."));
        all.add(met("format", "fat32, exfat", "exfat", null, "The recorder takes this file system."));
        all.add(met("port", "9.22 MB/s", "5000 Mbit/s", 54.2, "The port is fast enough."));
        all.add(open("playback", "1.2×", "not tested", false, "The session does not ask for playback."));
        return all;
    }

    private static Criterion intact(String blocks) {
        return met(
                "intact",
                "every block",
                blocks + " of " + blocks + " blocks",
                null,
                "Every block came back as written.");
    }

    private static Criterion met(String id, String needed, String measured, @Nullable Double margin, String sentence) {
        return criterion(id, needed, measured, margin, true, sentence);
    }

    private static Criterion missed(
            String id, String needed, String measured, @Nullable Double margin, String sentence) {
        return criterion(id, needed, measured, margin, false, sentence);
    }

    private static Criterion criterion(
            String id, String needed, String measured, @Nullable Double margin, boolean met, String sentence) {
        boolean factor = needed.endsWith("×");
        return new Criterion(
                id,
                needed,
                measured,
                factor ? Double.valueOf(needed.replace("×", "")) : null,
                factor ? margin : null,
                factor ? "×" : "",
                margin,
                met,
                false,
                sentence);
    }

    private static Criterion open(String id, String needed, String measured, boolean host, String sentence) {
        return new Criterion(id, needed, measured, null, null, "", null, null, host, sentence);
    }
}
