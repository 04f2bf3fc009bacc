package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import tracksoak.profiles.RecorderBuffer;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Bullets;
import tracksoak.report.page.view.Section;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.RunRecord;

/** What even a PASS of this run leaves open. */
final class LimitsPart implements Part {

    @Override
    public Section of(RunRecord record, List<ChartData> charts) {
        List<String> limits = new ArrayList<>();
        if (record.method().ioMode() == IoMode.SIMULATED) {
            limits.add(
                    "This drive was simulated. The sheet shows how Tracksoak judges; it says nothing about any real drive.");
        }
        PlanFacts plan = record.plan();
        if (plan.shortened()) {
            limits.add("The plan " + plan.name() + " was shortened; only the full plan can make a drive trusted.");
        }
        if (plan.is(PlanName.LINE_CHECK)) {
            limits.add("A line-check only shows that nothing is obviously wrong. It never makes a drive trusted.");
        }
        limits.add("The desk. Its recorder has its own buffer, port and file system code" + buffer(record.session()));
        limits.add("Another port, cable, hub or computer: the drive was seen through this one only.");
        length(record, limits);
        capacity(record, limits);
        limits.add("Heat: a drive in the sun or in a closed rack may slow down where this one did not.");
        if (!Boolean.FALSE.equals(record.drive().rotational())) {
            limits.add(
                    "Loud sound: if this is a spinning disk, a pass in a quiet room does not carry to a loud stage.");
        }
        limits.add("A power cut: some drives lose what they had already reported as written.");
        limits.add(
                "Tomorrow: drives age, and a fuller drive may be slower. Test again after a season, or after anything odd.");
        return new Section(
                "limits", "What this does not prove", "What even a PASS leaves open", "", List.of(Bullets.of(limits)));
    }

    private static String buffer(Session session) {
        if (session.bufferAssumed()) {
            return "; the buffer of " + Units.seconds(session.bufferS()) + " is a guess: measure yours.";
        }
        return RecorderBuffer.measured(session).isEmpty()
                ? "."
                : "; the buffer of " + Units.seconds(session.bufferS())
                        + " was measured, and counts for that recorder as it was set then.";
    }

    private static void length(RunRecord record, List<String> limits) {
        Session session = record.session();
        double longest = record.phasesOf(PhaseKind.TAKE)
                .mapToDouble(PhaseFacts::seconds)
                .max()
                .orElse(0);
        if (longest < session.lengthS()) {
            limits.add("The whole length: the session runs " + Units.seconds(session.lengthS())
                    + ", the longest take here ran " + Units.seconds(longest)
                    + ". What happens more rarely than that was not seen.");
        }
    }

    private static void capacity(RunRecord record, List<String> limits) {
        long readBack = record.phasesOf(PhaseKind.READ_BACK)
                .mapToLong(PhaseFacts::bytes)
                .sum();
        Long free = record.drive().freeBytes();
        if (record.plan().wholeSpace()) {
            limits.add("What lay on the drive before: only the free space but the reserve was written and read back.");
            return;
        }
        limits.add("The drive's whole capacity: " + Units.bytes(readBack) + " were read back"
                + (free == null ? "." : ", of " + Units.bytes(free) + " that were free before the run."));
    }
}
