package tracksoak.bench.command.inspect;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Table;
import tracksoak.bench.command.console.Wrapped;
import tracksoak.bench.inspect.InspectJob;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Quantity;
import tracksoak.profiles.base.Times;
import tracksoak.report.record.facts.inspection.Finding;
import tracksoak.report.record.facts.inspection.FindingKind;
import tracksoak.report.record.facts.inspection.ImpliedValue;
import tracksoak.report.record.facts.inspection.InspectedTake;
import tracksoak.report.record.facts.inspection.InspectedTrack;
import tracksoak.report.record.facts.inspection.InspectionRecord;
import tracksoak.report.record.facts.inspection.SignalFacts;

/** An inspection in a few lines for people. */
final class InspectSummary {

    private static final int MOST_FINDINGS = 20;
    private static final int WIDEST = 48;
    private static final int MOST_TRACKS = 128;

    private InspectSummary() {}

    static void print(InspectJob.Done done, Console console) {
        InspectionRecord record = done.record();
        Wrapped out = new Wrapped(console);
        out.print(record.outcome().words() + "  ", record.sentence());
        out.print("What to do now: ", record.advice());
        out.print("Looked at: ", record.scope());
        String passedBy = passedBy(record);
        if (!passedBy.isEmpty()) {
            out.print("Not looked into: ", passedBy);
        }
        findings(record, out);
        tracks(record, console, out);
        if (!record.session().isEmpty()) {
            session(record.session(), console);
        }
        out.print("Report: ", done.files().page().toString());
        out.print("Record: ", done.files().record().toString());
        Path session = done.session();
        if (session != null) {
            out.print("Session: ", session.toString());
        }
        console.out().flush();
    }

    private static String passedBy(InspectionRecord record) {
        List<String> all = new ArrayList<>();
        if (record.otherFiles() > 0) {
            all.add(Count.of(record.otherFiles(), "other file") + " beside them");
        }
        int named = record.findings().stream()
                .filter(one -> one.kind() == FindingKind.NOT_LOOKED_AT)
                .mapToInt(Finding::trackCount)
                .sum();
        if (named > 0) {
            all.add(Count.number(named) + " named below");
        }
        return String.join(", ", all);
    }

    private static void findings(InspectionRecord record, Wrapped out) {
        record.findings().stream()
                .limit(MOST_FINDINGS)
                .forEach(finding -> out.print(
                        "  "
                                + switch (finding.weight()) {
                                    case FAULT -> "fault: ";
                                    case LISTEN -> "listen: ";
                                    case NOTE -> "note: ";
                                },
                        take(record, finding) + finding.sentence()));
        long more = Math.max(0, record.findings().size() - MOST_FINDINGS) + record.moreFindings();
        if (more > 0) {
            out.print("  ", "and " + Count.of(more, "finding") + " more; all are on the page");
        }
    }

    /** Which take it is about, unless there is one only or the sentence says so. */
    private static String take(InspectionRecord record, Finding finding) {
        String name = Inert.text(finding.take());
        return record.takes().size() < 2 || name.isEmpty() || finding.sentence().startsWith(name + ": ")
                ? ""
                : "take " + name + ": ";
    }

    private static void tracks(InspectionRecord record, Console console, Wrapped out) {
        Table table = new Table("track", "format", ">length", ">samples", ">files", "test signal");
        int rows = 0;
        for (InspectedTake take : record.takes()) {
            for (InspectedTrack track : take.tracks()) {
                if (rows++ < MOST_TRACKS) {
                    table.row(
                            cut((record.takes().size() > 1 ? take.name() + ": " : "") + track.name()),
                            Quantity.plain(track.sampleRateHz() / 1000.0) + " kHz " + 8 * track.bytesPerSample()
                                    + "-bit" + (track.isFloat() ? " float" : ""),
                            Times.playing(track.seconds()),
                            Count.number(track.samples()),
                            Count.number(track.splits()),
                            signal(track));
                }
            }
        }
        if (rows > 0) {
            table.print(console);
        }
        if (rows > MOST_TRACKS) {
            out.print("  ", "and " + Count.of(rows - MOST_TRACKS, "track") + " more; all are in the record");
        }
    }

    /** A name no wider than leaves room for the rest of the row; the record has it whole. */
    private static String cut(String name) {
        String shown = Inert.whole(name);
        return shown.codePointCount(0, shown.length()) <= WIDEST
                ? shown
                : shown.substring(0, shown.offsetByCodePoints(0, WIDEST - 1)) + "…";
    }

    private static String signal(InspectedTrack track) {
        SignalFacts signal = track.signal();
        if (signal == null) {
            return track.silent() ? "none; silent" : "none";
        }
        return (signal.breaks() == 0 ? "whole" : Count.of(signal.breaks(), "break")) + ", "
                + (signal.exact() ? "to the sample" : "to the millisecond");
    }

    private static void session(List<ImpliedValue> values, Console console) {
        Table table = new Table("session", "is", "known", "from");
        values.forEach(
                value -> table.row(value.key(), value.value(), value.told() ? "shown" : "a guess", value.evidence()));
        table.print(console);
    }
}
