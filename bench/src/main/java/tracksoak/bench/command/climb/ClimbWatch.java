package tracksoak.bench.command.climb;

import org.jspecify.annotations.Nullable;
import tracksoak.bench.climb.Climb;
import tracksoak.bench.climb.ClimbOrder;
import tracksoak.bench.climb.ClimbRunner.Purpose;
import tracksoak.bench.climb.Ladder;
import tracksoak.bench.climb.Search;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.qualify.RunWatch;
import tracksoak.bench.job.ClimbFiles;
import tracksoak.bench.job.RunFiles;
import tracksoak.bench.job.TargetClimbRunner;
import tracksoak.bench.phase.run.RunListener;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Quantity;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;

/** Shows how a climb is getting on and keeps its record, and the records of its sound-checks, while it goes on. */
final class ClimbWatch implements Climb.Listener, TargetClimbRunner.Watcher {

    private final Console console;
    private final NanoClock clock;
    private final ClimbFiles files;
    private final ClimbOrder order;
    private final boolean virtual;
    private @Nullable RunFiles check;
    private @Nullable RunWatch watch;
    private double fillS;

    ClimbWatch(Console console, NanoClock clock, ClimbFiles files, ClimbOrder order, boolean virtual) {
        this.console = console;
        this.clock = clock;
        this.files = files;
        this.order = order;
        this.virtual = virtual;
    }

    @Override
    public void begins(Purpose purpose, int value, Search.Left left) {
        if (purpose == Purpose.FILL) {
            console.say("filling the drive until it is steady, " + Units.seconds(order.fillCapS()) + " at most");
            return;
        }
        double takes = left.takes() * (order.shortTakeS() + 3);
        double checks =
                left.checks() * (order.check().takeBeforeS() + order.check().takeAfterS() + 2 * fillS);
        console.say((purpose == Purpose.TAKE ? "take at " : "sound-check at ")
                + amount(value, order.ladder().kind())
                + (virtual ? "" : "; all in all about " + Units.seconds(Math.rint(takes + checks)) + " left"));
    }

    static String amount(int value, Ladder.Kind kind) {
        return kind == Ladder.Kind.TRACKS ? Count.inDigits(value, "track") : Quantity.plain(value / 1000.0) + " kHz";
    }

    @Override
    public void snapshot(ClimbRecord soFar) {
        files.save(soFar);
    }

    @Override
    public RunListener before(Purpose purpose, int value) {
        RunFiles kept = purpose == Purpose.CHECK ? files.check(value) : null;
        check = kept;
        RunWatch begun = new RunWatch(kept, console, clock, !virtual);
        watch = begun;
        return begun;
    }

    @Override
    public void after(Purpose purpose, RunRecord record) {
        end();
        RunFiles kept = check;
        if (kept != null) {
            kept.save(record);
        }
        fillS = record.phases().stream()
                .filter(phase -> phase.kind() == PhaseKind.FILL)
                .mapToDouble(PhaseFacts::seconds)
                .max()
                .orElse(fillS);
    }

    /** Clears the line of progress. */
    void end() {
        RunWatch open = watch;
        if (open != null) {
            open.end();
        }
    }
}
