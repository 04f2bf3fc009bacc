package tracksoak.report.page;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import tracksoak.report.page.view.CriterionView;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Shown;
import tracksoak.report.page.view.VerdictView;
import tracksoak.report.record.Criterion;
import tracksoak.report.record.DriveFacts;
import tracksoak.report.record.PlanFacts;
import tracksoak.report.record.RunRecord;
import tracksoak.report.record.Verdict;
import tracksoak.report.verdict.Units;

/** The head of the sheet and the criteria under it. */
final class VerdictHead {

    private static final Map<String, String> NAMES = Map.of(
            "lost-audio", "Lost audio",
            "buffer-margin", "Buffer margin",
            "rate-margin", "Rate margin",
            "longest-stall", "Longest stall",
            "close-time", "Close",
            "intact", "Intact",
            "room", "Room",
            "format", "File system",
            "port", "Port",
            "playback", "Playback");

    private VerdictHead() {}

    static VerdictView of(RunRecord record, Verdict verdict) {
        return new VerdictView(
                state(verdict.outcome()),
                word(verdict.outcome()),
                Shown.whole(verdict.sentence()),
                Shown.whole(verdict.scope()),
                drive(record.drive()),
                Facts.about("")
                        .row("Serial number", record.drive().serial())
                        .row("Session", record.session().title())
                        .row("Tracks", SessionPart.groups(record.session().groups()))
                        .row("Demand", Units.rate((double) record.session().bytesPerSecond()))
                        .row("Plan", record.plan().name() + (record.plan().shortened() ? ", shortened" : ""))
                        .row("Run on", Times.of(record.startedAt()))
                        .build()
                        .rows(),
                warning(record.plan(), verdict),
                Advice.of(record, verdict),
                verdict.reasons().stream().map(Shown::whole).toList(),
                verdict.notes().stream().map(Shown::whole).toList());
    }

    static List<CriterionView> criteria(Verdict verdict) {
        return verdict.criteria().stream().map(VerdictHead::criterion).toList();
    }

    static String word(Verdict.Outcome outcome) {
        return switch (outcome) {
            case PASS -> "PASS";
            case FAIL -> "FAIL";
            case NO_VERDICT -> "NO VERDICT";
        };
    }

    /** Maker, model and size in one line. */
    static Shown drive(DriveFacts drive) {
        Long size = drive.sizeBytes();
        String line = Stream.of(drive.maker(), drive.model(), size == null ? null : Units.bytes(size))
                .filter(Objects::nonNull)
                .filter(part -> !part.isBlank())
                .collect(Collectors.joining(" "));
        return Shown.of(line.isEmpty() ? "Unnamed drive" : line);
    }

    private static String state(Verdict.Outcome outcome) {
        return switch (outcome) {
            case PASS -> "pass";
            case FAIL -> "fail";
            case NO_VERDICT -> "none";
        };
    }

    private static String warning(PlanFacts plan, Verdict verdict) {
        if (!plan.shortened()) {
            return "";
        }
        return "Shortened plan: this does not count as a full " + plan.name()
                + (verdict.outcome() == Verdict.Outcome.PASS ? ", and does not make the drive trusted." : ".");
    }

    private static CriterionView criterion(Criterion criterion) {
        Boolean met = criterion.met();
        Double margin = criterion.margin();
        String state = met != null ? (met ? "met" : "missed") : criterion.decidedByHost() ? "open" : "untested";
        return new CriterionView(
                NAMES.getOrDefault(criterion.id(), Shown.clean(criterion.id())),
                Shown.of(criterion.needed()),
                Shown.of(criterion.measured()),
                margin == null ? "–" : Units.factor(margin),
                state,
                met != null
                        ? (met ? "met" : "missed")
                        : criterion.decidedByHost() ? "open: the computer" : "not tested",
                Shown.whole(criterion.sentence()));
    }
}
