package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Grid;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.HostFacts;
import tracksoak.report.record.facts.MethodFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.RunRecord;

/** The computer, how it measured, and the evidence that the measuring can be trusted. */
final class MethodPart implements Part {

    private static final String NONE = "not known";

    @Override
    public Section of(RunRecord record, List<ChartData> charts) {
        List<Block> blocks = new ArrayList<>();
        blocks.add(method(record.method()));
        blocks.add(host(record.host()));
        if (!record.phases().isEmpty()) {
            blocks.add(evidence(record));
        }
        return new Section(
                "method",
                "Method and computer",
                "How it was measured, and how late the computer itself was",
                late(record),
                blocks);
    }

    private static String late(RunRecord record) {
        double lateMs = record.each(PhaseFacts::hostDelays)
                .mapToDouble(HostDelays::canaryMaxMs)
                .max()
                .orElse(0);
        return lateMs > 0 ? "computer late by " + Units.ms(lateMs) : "";
    }

    private static Facts method(MethodFacts method) {
        return Facts.about("Method")
                .row("Writes", mode(method))
                .rowIf(!method.ioReason().isBlank(), "Why not direct", method.ioReason())
                .row("Alignment", Units.bytes(method.alignmentBytes()))
                .row("Chunk really written", Units.bytes(method.chunkBytes()))
                .row("Write timeout", Units.seconds(method.hangLimitS()))
                .rowIf(method.canaryMs() > 0, "Computer's delays sampled every", Units.ms(method.canaryMs()))
                .build();
    }

    private static String mode(MethodFacts method) {
        return switch (method.ioMode()) {
            case DIRECT -> "direct: the computer's memory is bypassed";
            case WRITE_THROUGH -> "written through: each write returns once the drive has it";
            case SIMULATED -> "simulated drive on simulated time";
        };
    }

    private static Facts host(HostFacts host) {
        Long memory = host.memoryBytes();
        return Facts.about("Computer")
                .row("System", host.os() + ", " + host.arch())
                .row("Processor", host.cpu())
                .row("Cores Tracksoak may use", Count.number(host.cores()))
                .row("Memory", memory == null ? null : Units.bytes(memory))
                .row("Java", host.java())
                .build();
    }

    private static Grid evidence(RunRecord record) {
        List<List<Shown>> rows = new ArrayList<>();
        for (int i = 0; i < record.phases().size(); i++) {
            PhaseFacts phase = record.phases().get(i);
            HostDelays host = phase.hostDelays();
            rows.add(Grid.row(
                    PhaseNames.of(record, i),
                    counters(phase.device()),
                    host == null ? NONE : Units.ms(host.canaryMaxMs()),
                    host == null ? NONE : Units.ms(host.ownMaxMs()),
                    host == null ? NONE : sleep(host),
                    host == null ? NONE : Units.ms(host.clockStepMs())));
        }
        return new Grid(
                "Evidence: the drive's own counters, and what the computer did meanwhile",
                List.of(
                        "Phase",
                        "Drive's counters",
                        "Longest delay of the computer",
                        "Tracksoak late by",
                        "Computer asleep",
                        "Clock jumped by"),
                rows);
    }

    private static String counters(@Nullable DeviceEvidence device) {
        if (device == null) {
            return "none on this system";
        }
        Double busyMs = device.busyMs();
        return Units.bytes(device.bytesWritten()) + " written, " + Units.bytes(device.bytesRead())
                + " read; Tracksoak moved " + Units.bytes(device.payloadBytes())
                + (busyMs == null ? "" : "; at work for " + Units.seconds(busyMs / 1000))
                + (device.otherBusBytes() == null ? "" : "; others on its bus " + Units.bytes(device.otherBusBytes()));
    }

    private static String sleep(HostDelays host) {
        return host.sleepKnown() ? Units.ms(host.suspendedMs()) : "unknown";
    }
}
