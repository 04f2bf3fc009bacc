package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Bullets;
import tracksoak.report.page.view.Grid;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;

/** What the run did, phase by phase, and what ended it. */
final class PhasesPart implements Part {

    @Override
    public Section of(RunRecord record, List<ChartData> charts) {
        List<Block> blocks = new ArrayList<>();
        PlanFacts plan = record.plan();
        if (plan.shortened()) {
            blocks.add(Prose.of("The plan " + plan.name()
                    + " was shortened, so this run never counts as the full plan, whatever it found."));
        }
        if (record.state() != RunState.COMPLETE) {
            blocks.add(Prose.of(state(record.state())
                    + (record.stateReason().isBlank() ? "" : " Reason: " + record.stateReason())));
        }
        if (record.phases().isEmpty()) {
            blocks.add(Prose.of("The run ended before its first phase."));
        } else {
            blocks.add(phases(record));
        }
        List<Shown> faults = new ArrayList<>();
        for (int i = 0; i < record.phases().size(); i++) {
            Fault fault = record.phases().get(i).fault();
            if (fault != null) {
                faults.add(Shown.whole(PhaseNames.of(record, i) + ", " + Units.seconds(fault.atS()) + " in, after "
                        + Units.bytes(fault.atBytes()) + ": " + kind(fault.kind()) + " during " + fault.what()
                        + (fault.message().isBlank() ? "" : ". The system said: " + fault.message())));
            }
        }
        if (!faults.isEmpty()) {
            blocks.add(new Bullets(faults));
        }
        return new Section("phases", "What was done", gist(record), took(record), blocks);
    }

    private static String gist(RunRecord record) {
        List<String> names = new ArrayList<>();
        for (int i = 0; i < record.phases().size(); i++) {
            String name = PhaseNames.of(record, i);
            names.add(names.isEmpty() ? name : name.toLowerCase(Locale.ROOT));
        }
        return names.isEmpty() ? "Nothing" : String.join(", ", names);
    }

    private static String took(RunRecord record) {
        return Units.seconds(
                record.phases().stream().mapToDouble(PhaseFacts::seconds).sum());
    }

    private static Grid phases(RunRecord record) {
        List<List<Shown>> rows = new ArrayList<>();
        for (int i = 0; i < record.phases().size(); i++) {
            PhaseFacts phase = record.phases().get(i);
            boolean paced = phase.kind().paced();
            rows.add(Grid.row(
                    PhaseNames.of(record, i),
                    Units.seconds(phase.seconds())
                            + (phase.plannedSeconds() > 0 ? " of " + Units.seconds(phase.plannedSeconds()) : ""),
                    Units.bytes(phase.bytes()),
                    paced ? Units.percent(phase.busyFraction()) : "–",
                    paced ? Units.ms(phase.peakBacklogMs()) : "–",
                    paced ? Units.ms(phase.lostMs()) : "–",
                    phase.complete() ? "to its end" : "cut short"));
        }
        return new Grid(
                "The phases in order",
                List.of("Phase", "Took", "Bytes", "Drive busy", "Peak backlog", "Audio lost", "Ran"),
                rows);
    }

    private static String state(RunState state) {
        return switch (state) {
            case RUNNING -> "The record ends while the run was still going on: its process died, or the run goes on.";
            case INTERRUPTED -> "You stopped the run before its end.";
            case BROKEN -> "Tracksoak or the computer kept the run from going on.";
            case COMPLETE -> "The run is complete.";
        };
    }

    private static String kind(Fault.Kind kind) {
        return switch (kind) {
            case HUNG -> "a call to the drive never came back";
            case GONE -> "the drive left the system";
            case READ_ONLY -> "the drive became read-only";
            case NO_SPACE -> "no room was left: something else wrote to the drive";
            case NO_ENTRIES -> "the file system took no more files, though room was free";
            case TOO_LARGE -> "a file came to be larger than is allowed";
            case QUOTA -> "the account's quota was used up";
            case IO_ERROR -> "the drive gave an error";
            case INTERRUPTED -> "you stopped the run";
            case UNANSWERED -> "you stopped the run while the drive did not answer";
            case INTERNAL -> "Tracksoak itself failed";
        };
    }
}
