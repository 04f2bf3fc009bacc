package tracksoak.bench.command.qualify;

import java.nio.file.Path;
import java.util.function.IntSupplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.RunSummary;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.job.Drives;
import tracksoak.bench.job.JobListener;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.tray.KeptAwake;
import tracksoak.bench.tray.LiveRun;
import tracksoak.bench.tray.RunOrder;
import tracksoak.bench.tray.Turn;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.RunRecord;

/** Who is told of a run, and whether it waits for its turn. */
final class Told {

    private final JobListener lines;
    private final @Nullable LiveRun live;
    private final boolean alone;

    /**
     * @param lines tells the person at the terminal
     * @param live tells those who look from outside; null where nobody does, and the run begins at once
     * @param alone whether it waits until no other run works
     */
    Told(JobListener lines, @Nullable LiveRun live, boolean alone) {
        this.lines = lines;
        this.live = live;
        this.alone = alone;
    }

    JobListener listener() {
        return live == null ? lines : live;
    }

    void over(RunRecord record) {
        if (live != null) {
            live.over(record, RunSummary.advice(record));
        }
    }

    /** Does the work when it is its turn, and says how it ended. */
    int inTurn(Rooms rooms, Session session, IntSupplier work) {
        LiveRun told = live;
        if (told == null) {
            return work.getAsInt();
        }
        try (KeptAwake awake = KeptAwake.begin()) {
            return inTurn(told, rooms, session, awake, work);
        } catch (Problem wrong) {
            told.failed(wrong.told(), wrong.todo());
            throw wrong;
        } catch (RuntimeException | Error unforeseen) {
            told.failed("the run broke off: " + unforeseen, "try again");
            throw unforeseen;
        } finally {
            told.ends();
        }
    }

    private int inTurn(LiveRun told, Rooms rooms, Session session, KeptAwake awake, IntSupplier work) {
        RunOrder order = told.order();
        if (order != null && order.simulated()) {
            told.works(awake::how);
            return work.getAsInt();
        }
        Turn.Wish wish = new Turn.Wish(
                rooms.stateFolder(),
                order == null ? null : order.links(),
                alone,
                order == null ? 1 : order.share(session),
                Runtime.getRuntime().availableProcessors());
        try (Turn turn = Turn.take(wish, SystemClocks.NANO, SystemClocks.PARK, told::toStop, told::waits)) {
            if (turn == null) {
                told.failed("it was stopped before it began; nothing was written", "");
                return Exit.INTERRUPTED;
            }
            if (order != null) {
                order.mustBe(there(rooms, order));
            }
            told.keepsTo(turn);
            told.works(awake::how);
            return work.getAsInt();
        }
    }

    /** What is in the place of the order now, null for nothing: hours may have passed since somebody looked. */
    private static @Nullable FoundDrive there(Rooms rooms, RunOrder order) {
        try {
            return Drives.at(rooms, Path.of(order.place()));
        } catch (Problem missing) {
            if (missing.kind().ofTheAsker()) {
                return null;
            }
            throw missing;
        }
    }
}
