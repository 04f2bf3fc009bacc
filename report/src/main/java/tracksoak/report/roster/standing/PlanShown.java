package tracksoak.report.roster.standing;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.ToLongFunction;
import java.util.stream.LongStream;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.RunRecord;

/**
 * Holds what a record says of its plan against what its phases show: their order, lengths and bytes. A plan's name is a word that
 * whoever signs a record could have written; the phases are what was measured. Pure.
 */
final class PlanShown {

    /** Maker that the bench gives to drives made of software. */
    private static final String SIMULATED = "simulated";

    private static final double TAKE_BEFORE_S = 300;
    private static final double TAKE_AFTER_S = 600;
    private static final double FILL_CAP_S = 3600;

    /** No run is longer, no drive larger: what a record says beyond counts as this. */
    private static final double MOST_S = 31_536_000;

    private static final long MOST_BLOCKS = 1L << 38;

    /** Part of what was planned that must be there: phases end between two chunks, and files have heads. */
    private static final double NEARLY = 0.98;

    private final RunRecord run;
    private final Session session;
    private final PlanFacts plan;

    private PlanShown(RunRecord run) {
        this.run = run;
        this.session = run.session();
        this.plan = run.plan();
    }

    /** Why the record gives no trust although its plan's name would, in a sentence; empty where it may. */
    static String doubt(RunRecord run) {
        boolean virtual = run.method().ioMode() == IoMode.SIMULATED;
        if (virtual && !SIMULATED.equals(run.drive().maker())) {
            return "The record's writing was simulated, and its drive is no simulated one.";
        }
        PlanShown shown = new PlanShown(run);
        boolean holds = run.plan().is(PlanName.FULL_SHOW) ? shown.fullShow() : shown.soundCheck();
        return holds ? "" : "The record's phases do not show the plan that it names.";
    }

    /** How long the drive was written, or played, at the session's pace, in ms: only what was done as a whole counts. */
    static long paceMs(RunRecord run) {
        PlanShown shown = new PlanShown(run);
        double seconds = switch (run.session().kind()) {
            case RECORDING -> shown.seconds(PhaseKind.TAKE);
            case PLAYBACK, MIXDOWN -> shown.seconds(PhaseKind.PLAYBACK);
            case ARCHIVE -> {
                // a copy has no pace of its own: as long as the audio it copied
                double copied = shown.phases(PhaseKind.COPY).stream()
                        .mapToLong(PhaseFacts::bytes)
                        .sum();
                yield Math.min(
                        run.plan().copyS(), copied / Math.max(1, run.session().bytesPerSecond()));
            }
        };
        return Math.round(Math.max(0, Math.min(seconds, MOST_S)) * 1000);
    }

    private double seconds(PhaseKind kind) {
        return phases(kind).stream()
                .filter(PhaseFacts::complete)
                .mapToDouble(PhaseFacts::seconds)
                .sum();
    }

    /** Bytes written that were read back as they were, each counted once. */
    static long provenBytes(RunRecord run) {
        PlanShown shown = new PlanShown(run);
        long written = shown.phases(PhaseKind.TAKE, PhaseKind.FILL, PhaseKind.COPY).stream()
                .mapToLong(PhaseFacts::bytes)
                .sum();
        long back = shown.phases(PhaseKind.READ_BACK).stream()
                .map(PhaseFacts::readBack)
                .filter(Objects::nonNull)
                .mapToLong(found -> Math.max(0, Math.min(found.good(), MOST_BLOCKS)) * ReadBackFacts.BLOCK_BYTES)
                .sum();
        return Math.max(0, Math.min(written, back));
    }

    private boolean soundCheck() {
        double lengthS = session.lengthS();
        return switch (session.kind()) {
            case RECORDING ->
                plan.takeBeforeS() >= Math.min(TAKE_BEFORE_S, lengthS)
                        && plan.fillCapS()
                                >= Math.min(
                                                FILL_CAP_S,
                                                lengthS / session.margins().rate())
                                        * NEARLY
                        && plan.takeAfterS() >= Math.min(TAKE_AFTER_S, lengthS)
                        && taken(List.of(PhaseKind.TAKE, PhaseKind.FILL, PhaseKind.TAKE))
                        && filled()
                        && readBack(written());
            case PLAYBACK, MIXDOWN -> played(Math.min(TAKE_AFTER_S, lengthS)) && readBack(written());
            case ARCHIVE -> copied(lengthS) && readBack(written());
        };
    }

    private boolean fullShow() {
        double lengthS = session.lengthS();
        if (!plan.wholeSpace() || !wholeRoom()) {
            return false;
        }
        return switch (session.kind()) {
            case RECORDING ->
                plan.takeAfterS() >= lengthS && taken(List.of(PhaseKind.FILL, PhaseKind.TAKE)) && readBack(written());
            case PLAYBACK, MIXDOWN -> played(lengthS) && readBack(written());
            case ARCHIVE -> copied(lengthS) && readBack(written());
        };
    }

    /** Whether these phases, in this order, lasted as long as planned, and the takes wrote what the session makes in that time. */
    private boolean taken(List<PhaseKind> order) {
        List<PhaseFacts> phases = phases(PhaseKind.TAKE, PhaseKind.FILL);
        // what was filled may have been filled once more
        if (phases.size() == order.size() + 1 && phases.get(2).kind() == PhaseKind.FILL) {
            phases = new ArrayList<>(phases);
            phases.remove(2);
        }
        if (!phases.stream().map(PhaseFacts::kind).toList().equals(order)
                || phases(PhaseKind.CLOSE).isEmpty()) {
            return false;
        }
        List<Double> lengths = new ArrayList<>();
        if (plan.takeBeforeS() > 0) {
            lengths.add(plan.takeBeforeS());
        }
        lengths.add(plan.takeAfterS());
        List<PhaseFacts> takes = phases(PhaseKind.TAKE);
        for (int i = 0; i < takes.size(); i++) {
            if (i >= lengths.size() || !lasted(takes.get(i), lengths.get(i))) {
                return false;
            }
        }
        return takes.size() == lengths.size();
    }

    /** Audio that was lost was never written; whether it may be is the verdict's. */
    private boolean lasted(PhaseFacts phase, double seconds) {
        double lostS = phase.lostTrackMs() / 1000 / Math.max(1, session.tracks());
        return phase.seconds() >= seconds * NEARLY
                && phase.bytes() >= session.bytesPerSecond() * Math.max(0, seconds - lostS) * NEARLY;
    }

    /** A fill wrote as much as the session will, or all the room there was, or ended for a reason that its facts show. */
    private boolean filled() {
        return phases(PhaseKind.FILL).stream().limit(1).allMatch(fill -> {
            FillFacts found = fill.fill();
            if (found == null || fill.seconds() > plan.fillCapS() / NEARLY) {
                return false;
            }
            return switch (found.ended()) {
                case STEADY, ENOUGH ->
                    found.cliffAtBytes() != null
                            || fill.bytes() >= session.bytesPerSecond() * session.lengthS() * NEARLY;
                case FULL -> fill.bytes() >= found.room() * NEARLY;
                case CAP -> fill.seconds() >= plan.fillCapS() * NEARLY;
                case BELOW_NEED, COPIED, CUT_SHORT -> true;
            };
        });
    }

    /** The whole free space was written, and all of it read back before anything else was. */
    private boolean wholeRoom() {
        List<PhaseFacts> phases = run.phases();
        for (int i = 0; i + 1 < phases.size(); i++) {
            PhaseFacts fill = phases.get(i);
            if (fill.kind() == PhaseKind.FILL) {
                FillFacts found = fill.fill();
                PhaseFacts next = phases.get(i + 1);
                return found != null
                        && found.ended() == FillFacts.Ended.FULL
                        && fill.bytes() >= found.room() * NEARLY
                        && next.kind() == PhaseKind.READ_BACK
                        && blocks(next) >= fill.bytes() * NEARLY;
            }
        }
        return false;
    }

    private boolean played(double seconds) {
        return copied(seconds)
                && plan.playbackS() >= seconds
                && phases(PhaseKind.PLAYBACK).stream().anyMatch(phase -> phase.seconds() >= seconds * NEARLY - 1);
    }

    private boolean copied(double seconds) {
        return plan.copyS() >= seconds && phases(PhaseKind.COPY).stream().anyMatch(phase -> phase.bytes() > 0);
    }

    /** What is still on the drive at the end: of a whole space, the fill was deleted after it was read back. */
    private long written() {
        ToLongFunction<PhaseFacts> left = phase ->
                phase.bytes() - (phase.rounds() == null ? 0 : phase.rounds().deletedBytes());
        // a second fill only uses the cells, and is deleted unread
        PhaseFacts fill = phases(PhaseKind.FILL).stream().findFirst().orElse(null);
        return run.phases().stream()
                .filter(phase -> phase.kind() == PhaseKind.TAKE
                        || phase.kind() == PhaseKind.COPY
                        || (phase.equals(fill) && !plan.wholeSpace()))
                .mapToLong(left)
                .sum();
    }

    /** What was filled and what was taken are read back one after the other; of a whole space each by itself. */
    private boolean readBack(long bytes) {
        LongStream blocks = phases(PhaseKind.READ_BACK).stream().mapToLong(PlanShown::blocks);
        return (plan.wholeSpace() ? blocks.max().orElse(0) : blocks.sum()) >= bytes * NEARLY;
    }

    private static long blocks(PhaseFacts phase) {
        ReadBackFacts back = phase.readBack();
        return back == null ? 0 : back.blocks() * ReadBackFacts.BLOCK_BYTES;
    }

    private List<PhaseFacts> phases(PhaseKind... kinds) {
        return run.phasesOf(kinds).toList();
    }
}
