package tracksoak.report.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import tracksoak.profiles.base.KebabCase;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.PhaseFacts;

/** What keeps a PASS from being given although no criterion was missed. */
final class Doubts {

    /** Largest part of a take the host may be late in, 0…1. */
    static final double MOST_HOST = 0.10;

    private Doubts() {}

    /** What records of earlier versions say of a run that its person ended, and those of today. */
    private static final Set<String> STOPPED = Set.of("stopped by a person", "stopped by you");

    /** One sentence each; empty if there is no doubt. */
    static List<String> of(JudgedRun run) {
        List<String> reasons = new ArrayList<>();
        run.record.phases().stream().flatMap(Doubts::ended).forEach(reasons::add);
        if (reasons.isEmpty()) {
            state(run, reasons);
        }
        for (PhaseFacts phase : run.record.phases()) {
            if (run.timed(phase)) {
                host(phase, reasons);
            }
        }
        if (run.written().anyMatch(Blame::countersDisagree)) {
            reasons.add(
                    "The device's own counters show less than was written: part of it stayed in the computer's memory,"
                            + " so the figures are not the drive's alone.");
        }
        return reasons;
    }

    /** Part of a phase that the host was late in, 0…1. */
    static double hostShare(PhaseFacts phase) {
        return phase.seconds() > 0 ? Blame.hostMs(phase) / 1000 / phase.seconds() : 0;
    }

    /** Whether the host was late for more of a phase than allows a verdict on times. */
    static boolean overloaded(PhaseFacts phase) {
        return hostShare(phase) > MOST_HOST;
    }

    /** What a person calls the phase. */
    static String name(PhaseFacts phase) {
        return KebabCase.of(phase.kind());
    }

    private static void state(JudgedRun run, List<String> reasons) {
        String why = run.record.stateReason().isEmpty() ? "" : " (" + run.record.stateReason() + ")";
        switch (run.record.state()) {
            case COMPLETE -> {}
            case RUNNING -> reasons.add("The run is not over, or it died before its end.");
            case INTERRUPTED ->
                reasons.add(
                        STOPPED.stream().anyMatch(run.record.stateReason()::endsWith)
                                ? "You stopped the run: let it finish."
                                : "The run was interrupted" + why + ": let it finish.");
            case BROKEN -> reasons.add("The computer or Tracksoak kept the run from its end" + why + ": run again.");
        }
    }

    /** What ended a phase that is none of the drive's doing as far as is known, and what to do. */
    private static Stream<String> ended(PhaseFacts phase) {
        Fault fault = phase.fault();
        return fault == null
                ? Stream.empty()
                : switch (fault.kind()) {
                    case NO_SPACE ->
                        Stream.of("Another program filled the drive during the run: stop it, make room and run again.");
                    case NO_ENTRIES ->
                        Stream.of("The file system took no more files, though room was free: its tables of files and"
                                + " folders are full. Delete files that are not needed, or format the drive in the"
                                + " recorder, and run again.");
                    case TOO_LARGE ->
                        Stream.of("A file came to be larger than the file system takes, or than this computer lets the"
                                + " account write: run again with a smaller --file-limit if your recorder has one, or"
                                + " format the drive with a file system that takes larger files.");
                    case QUOTA ->
                        Stream.of("The account's quota on this file system is used up: have it raised, or delete files"
                                + " of that account, and run again.");
                    case UNANSWERED ->
                        Stream.of("You stopped the run while a call to the drive had not come back for "
                                + Units.seconds(phase.unansweredS()) + " (" + fault.what()
                                + "). Whether it would have is open: run again and let it finish.");
                    case HUNG, GONE, READ_ONLY, IO_ERROR, INTERRUPTED, INTERNAL -> Stream.empty();
                };
    }

    private static void host(PhaseFacts phase, List<String> reasons) {
        HostDelays host = phase.hostDelays();
        if (host == null) {
            return;
        }
        String where = name(phase);
        if (host.suspendedMs() > Blame.MOST_SLEEP_MS) {
            reasons.add("The computer slept for " + Units.ms(host.suspendedMs()) + " during the " + where
                    + ": keep it awake and run again.");
        } else if (Blame.slept(host)) {
            reasons.add("The computer's clock jumped by " + Units.ms(Math.abs(host.clockStepMs())) + " during the "
                    + where + ", or it slept: run again.");
        }
        if (phase.kind().paced() && overloaded(phase)) {
            reasons.add("The computer was late for " + Units.percent(hostShare(phase))
                    + " of a " + where
                    + ", so the drive was not asked for all that the session asks: close other programs and run"
                    + " again.");
        }
    }
}
