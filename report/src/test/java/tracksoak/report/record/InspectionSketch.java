package tracksoak.report.record;

import java.util.List;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.facts.inspection.Finding;
import tracksoak.report.record.facts.inspection.FindingKind;
import tracksoak.report.record.facts.inspection.ImpliedValue;
import tracksoak.report.record.facts.inspection.InspectedFile;
import tracksoak.report.record.facts.inspection.InspectedTake;
import tracksoak.report.record.facts.inspection.InspectedTrack;
import tracksoak.report.record.facts.inspection.InspectionRecord;
import tracksoak.report.record.facts.inspection.SignalFacts;
import tracksoak.report.record.facts.inspection.VolumeSeen;

/** An invented inspection of two tracks, one of which lost a sample. */
public final class InspectionSketch {

    private InspectionSketch() {}

    /** It. */
    public static InspectionRecord ofTwoTracks() {
        String sentence = "TR02: 1 sample (0.02 ms) of the test signal is missing at 0:12:31.250.";
        return new InspectionRecord(
                InspectionRecord.SCHEMA,
                "01987654-3210-7abc-8def-0123456789ab",
                "tracksoak 0",
                "2026-05-17T22:10:00Z",
                "2026-05-17T22:11:30Z",
                "SHOW <7>",
                1_036_800_000,
                3,
                Verdict.Outcome.FAIL,
                sentence,
                "1 take, 2 tracks, 2 files, 1.04 GB of samples read. The test signal was followed on every track for 1 h or"
                        + " more: to the sample.",
                "Copy everything to another drive now.",
                List.of(),
                new VolumeSeen("exfat", 131_072, false, true, false),
                List.of(new InspectedTake(
                        "act 1",
                        3600,
                        List.of(track("TR01", 0, 0), track("TR02", 1, 1)),
                        List.of(file("act 1/TR01.wav", 172_800_000), file("act 1/TR02.wav", 172_799_999)))),
                List.of(
                        new Finding(
                                FindingKind.SIGNAL_MISSING,
                                Finding.Weight.FAULT,
                                "act 1",
                                List.of("TR02"),
                                1,
                                751.25,
                                36_060_000L,
                                1.0,
                                true,
                                sentence),
                        new Finding(
                                FindingKind.DIRTY,
                                Finding.Weight.LISTEN,
                                "",
                                List.of(),
                                0,
                                null,
                                null,
                                null,
                                true,
                                "The file system is marked as not unmounted cleanly.")),
                0,
                List.of(new ImpliedValue("layout", "file-per-track", true, "every file holds one track")));
    }

    private static InspectedTrack track(String name, int file, long breaks) {
        return new InspectedTrack(
                name,
                48_000,
                3,
                false,
                1,
                172_800_000 - breaks,
                file,
                1,
                false,
                new SignalFacts(89_998, true, 0.5, 3599.5, -0.5, breaks));
    }

    private static InspectedFile file(String path, long samples) {
        return new InspectedFile(path, "RIFF", 44 + 3 * samples, samples, InspectedFile.Header.DONE, null);
    }
}
