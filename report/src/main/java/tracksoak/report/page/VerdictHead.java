package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Demand;
import tracksoak.profiles.TrackGroup;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Times;
import tracksoak.profiles.base.Units;
import tracksoak.report.history.DriveHistory;
import tracksoak.report.page.view.CriterionView;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Shown;
import tracksoak.report.page.view.VerdictView;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;

/** The head of the sheet and the criteria under it. */
public final class VerdictHead {

    private static final String NOT_TESTED = "not tested";

    private VerdictHead() {}

    static VerdictView of(RunRecord record, Verdict verdict, @Nullable DriveHistory history) {
        return new VerdictView(
                state(verdict.outcome()),
                verdict.outcome().words(),
                Shown.whole(verdict.sentence()),
                Shown.whole(Count.capital(verdict.scope())),
                drive(record),
                Facts.about("")
                        .row("Serial number", record.drive().serial())
                        .row("Session", record.session().title())
                        .row("Tracks", TrackGroup.words(record.session().groups()))
                        .row("Demand", Units.rate(Demand.of(record.session()).bytesPerSecond()))
                        .row("Plan", record.plan().name() + (record.plan().shortened() ? ", shortened" : ""))
                        .row("Run on", Times.minute(record.startedAt()))
                        .build()
                        .rows(),
                warnings(record, verdict, history),
                Shown.whole(Advice.of(record, verdict)),
                verdict.reasons().stream().map(Shown::whole).toList(),
                verdict.notes().stream().map(Shown::whole).toList());
    }

    static List<CriterionView> criteria(Verdict verdict) {
        return verdict.criteria().stream().map(VerdictHead::criterion).toList();
    }

    /** What the crew calls it, maker, model and size in one line. */
    static Shown drive(RunRecord record) {
        Shown hardware = drive(record.drive());
        if (record.tag() == null) {
            return hardware;
        }
        Shown tag = Shown.of(record.tag());
        return new Shown(tag.text() + ": " + hardware.text(), tag.full() + ": " + hardware.full());
    }

    /** Maker, model and size in one line. */
    static Shown drive(DriveFacts drive) {
        Long size = drive.sizeBytes();
        String line = Stream.of(drive.maker(), drive.model())
                .filter(Objects::nonNull)
                .filter(part -> !part.isBlank())
                .collect(Collectors.joining(" "));
        String name = line.isEmpty() ? "Unnamed drive" : line;
        return Shown.of(size == null ? name : name + ", " + Units.bytes(size));
    }

    /** What picks the shape of an outcome: {@code pass}, {@code fail} or {@code none}. */
    public static String state(Verdict.Outcome outcome) {
        return switch (outcome) {
            case PASS -> "pass";
            case FAIL -> "fail";
            case NO_VERDICT -> "none";
        };
    }

    /** A criterion in words; as the record has it where this program does not know it. */
    static String name(String id) {
        return CriterionId.of(id).map(CriterionId::title).orElseGet(() -> Shown.clean(id));
    }

    private static List<Shown> warnings(RunRecord record, Verdict verdict, @Nullable DriveHistory history) {
        List<Shown> warnings = new ArrayList<>();
        if (history != null && history.warns()) {
            warnings.add(Shown.whole("Over time: " + history.sentence()));
        }
        if (verdict.estimate() != null) {
            warnings.add(
                    Shown.whole("An estimate, no verdict: " + verdict.estimate().sentence()));
        }
        if (record.method().ioMode() == IoMode.SIMULATED) {
            warnings.add(Shown.whole("This drive is simulated: nothing here is about a real one."));
        }
        if (record.plan().shortened()) {
            warnings.add(Shown.whole("Shortened plan: this does not count as a full "
                    + record.plan().name()
                    + (verdict.outcome() == Verdict.Outcome.PASS ? ", and does not make the drive trusted." : ".")));
        }
        if (!verdict.session().equals(record.session().name())) {
            warnings.add(Shown.whole("Judged for the session " + verdict.session() + " from a run made for "
                    + record.session().name() + ": the curves and the demand below are those of the run."));
        }
        return warnings;
    }

    private static CriterionView criterion(Criterion criterion) {
        Double margin = criterion.headroom();
        String state = state(criterion);
        return new CriterionView(
                name(criterion.id()),
                Shown.of(criterion.needed()),
                Shown.of(criterion.measured()),
                margin == null ? "" : Units.factor(margin),
                state,
                word(criterion, state),
                Shown.whole(criterion.sentence()));
    }

    private static String state(Criterion criterion) {
        Boolean met = criterion.met();
        if (met != null) {
            return met ? "met" : "missed";
        }
        return !criterion.decidedByHost() && criterion.measured().equals(NOT_TESTED) ? "untested" : "open";
    }

    private static String word(Criterion criterion, String state) {
        if (state.equals("untested")) {
            return NOT_TESTED;
        }
        return state.equals("open") && criterion.decidedByHost() ? "open: the computer" : state;
    }
}
