package tracksoak.bench.tray;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import tracksoak.bench.tray.RunShelf.Sheet;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.EpochClock;

/**
 * Drives tested in one go. All that is known of a tray lies on the {@link RunShelf}, so that whoever looks after it, a command or the
 * page, may come and go. One thread.
 */
public final class Tray {

    private static final String PASS = "PASS";
    private static final String FAIL = "FAIL";
    private static final String NO_VERDICT = "NO VERDICT";
    private static final String ALONE = "--alone";

    /** How often what failed beside others is asked again alone while that settles nothing, as on a busy computer. */
    private static final int MOST_ALONE = 2;

    private static final Comparator<RunOrder> ASKED =
            Comparator.comparingLong(RunOrder::askedMs).thenComparing(RunOrder::id);

    private final RunShelf shelf;
    private final RunProcess process;
    private final EpochClock clock;
    private final Supplier<String> ids;

    /** @param ids new ids of 32 hex digits each */
    public Tray(RunShelf shelf, RunProcess process, EpochClock clock, Supplier<String> ids) {
        this.shelf = shelf;
        this.process = process;
        this.clock = clock;
        this.ids = ids;
    }

    /** Puts a run down and starts it. */
    public void start(RunOrder order) {
        process.start(order, shelf.put(order));
    }

    /**
     * The runs of a tray as they count, in the order the drives were asked for: of those done again the last, unless an earlier
     * one says more.
     */
    public List<Sheet> runs(String tray) {
        List<Sheet> all = shelf.all();
        return last(tray, all).stream().map(sheet -> counts(sheet, all)).toList();
    }

    /** Each drive's last run, in the order the drives were asked for. */
    private static List<Sheet> last(String tray, List<Sheet> shelf) {
        List<Sheet> all = shelf.stream()
                .filter(sheet -> sheet.order().tray().equals(tray))
                .toList();
        Set<String> doneAgain = all.stream().map(sheet -> sheet.order().again()).collect(Collectors.toSet());
        return all.stream()
                .filter(sheet -> !doneAgain.contains(sheet.order().id()))
                .sorted(Comparator.comparing((Sheet sheet) -> first(sheet, all).order(), ASKED))
                .toList();
    }

    private static Sheet first(Sheet sheet, List<Sheet> shelf) {
        return before(sheet, shelf).map(earlier -> first(earlier, shelf)).orElse(sheet);
    }

    private static Optional<Sheet> before(Sheet sheet, List<Sheet> shelf) {
        // each order names one that was asked for earlier: no chain is a ring
        return shelf.stream()
                .filter(other -> other.order().id().equals(sheet.order().again())
                        && ASKED.compare(other.order(), sheet.order()) < 0)
                .findFirst();
    }

    /**
     * A run that said less than the one it does again takes nothing away, but for a FAIL: it was asked again because others may have decided
     * it, and only a run alone can say that they did not.
     */
    private static Sheet counts(Sheet sheet, List<Sheet> shelf) {
        Sheet earlier = before(sheet, shelf).map(other -> counts(other, shelf)).orElse(null);
        if (earlier == null || sheet.alive() || weight(sheet) == 2) {
            return sheet;
        }
        if (weight(sheet) == 1) {
            return failedBefore(sheet, shelf)
                    .map(failed -> saying(
                            sheet,
                            Count.sentence(sheet.state().sentence())
                                    + " Beside other drives it had failed, and those may have decided that: "
                                    + Count.sentence(failed.state().sentence())))
                    .orElse(sheet);
        }
        if (weight(earlier) == 0) {
            return sheet;
        }
        String why = sheet.cutShort() ? "that was cut short" : sheet.state().sentence();
        String failed = earlier.state().outcome().equals(FAIL)
                ? "It failed beside other drives, which may have decided that: "
                : "";
        return saying(
                earlier,
                failed + Count.sentence(earlier.state().sentence())
                        + " It was to be tested again alone, and that was not done: "
                        + (why.isEmpty() ? "nobody knows why." : Count.sentence(why)));
    }

    private static Sheet saying(Sheet sheet, String sentence) {
        LiveState state = sheet.state();
        return new Sheet(
                sheet.order(),
                state.ended(
                        state.outcome().equals(FAIL) ? NO_VERDICT : state.outcome(),
                        sentence,
                        state.outcome().equals(FAIL) ? "Test it again alone." : state.todo()),
                false);
    }

    private static Optional<Sheet> failedBefore(Sheet sheet, List<Sheet> shelf) {
        return before(sheet, shelf)
                .flatMap(earlier ->
                        earlier.state().outcome().equals(FAIL) ? Optional.of(earlier) : failedBefore(earlier, shelf));
    }

    private static int weight(Sheet sheet) {
        return switch (sheet.state().outcome()) {
            case PASS, FAIL -> 2;
            case "" -> 0;
            default -> 1;
        };
    }

    /** When a tray was begun, as epoch time in ms; 0 if it is not known. */
    public long begunMs(String tray) {
        return shelf.all().stream()
                .map(Sheet::order)
                .filter(order -> order.tray().equals(tray))
                .mapToLong(RunOrder::askedMs)
                .min()
                .orElse(0);
    }

    /** The trays that are known, the newest first. */
    public List<String> trays() {
        return shelf.all().stream()
                .map(sheet -> sheet.order().tray())
                .filter(tray -> !tray.isEmpty())
                .distinct()
                .toList();
    }

    /** Whether nothing of it is left to do. */
    public boolean over(String tray) {
        List<Sheet> all = shelf.all();
        return last(tray, all).stream().noneMatch(sheet -> sheet.alive() || toDoAgain(sheet, all) || sheet.cutShort());
    }

    /**
     * Looks after a tray: a run that missed something while others worked beside it, or used its bus, is asked again alone, for they may
     * have decided it.
     */
    public void lookAfter(String tray) {
        List<Sheet> all = shelf.all();
        for (Sheet sheet : last(tray, all)) {
            if (toDoAgain(sheet, all) && shelf.first(sheet.order().id(), RunShelf.Once.AGAIN)) {
                start(again(sheet, true));
            }
        }
    }

    /** Whether something of it was cut short and nobody has gone on with it yet. */
    public boolean cutShort(String tray) {
        return last(tray, shelf.all()).stream().anyMatch(Sheet::cutShort);
    }

    /** Goes on where a tray was when the power failed or its processes were killed. */
    public void goOn(String tray) {
        for (Sheet sheet : last(tray, shelf.all())) {
            if (sheet.cutShort() && shelf.first(sheet.order().id(), RunShelf.Once.AGAIN)) {
                start(again(sheet, sheet.order().words().contains(ALONE)));
            }
        }
    }

    /** Tells, once, that a tray is over; nothing before. */
    public void tellEnd(String tray, SystemNotice notice) {
        List<Sheet> runs = runs(tray);
        Optional<Sheet> last = runs.stream()
                .max(Comparator.comparingLong(sheet -> sheet.state().saidMs()));
        if (last.isPresent() && over(tray) && shelf.first(last.get().order().id(), RunShelf.Once.TOLD)) {
            notice.show(sentence(tray, runs));
        }
    }

    /** How a tray is, in a sentence. */
    public String sentence(String tray) {
        return sentence(tray, runs(tray));
    }

    private String sentence(String tray, List<Sheet> runs) {
        long going = runs.stream().filter(Sheet::alive).count();
        if (going > 0) {
            return Count.inDigits(going, "drive") + " of " + runs.size() + " still to be tested.";
        }
        if (cutShort(tray)) {
            return "The tray was cut short.";
        }
        long passed = runs.stream()
                .filter(sheet -> sheet.state().outcome().equals(PASS))
                .count();
        long tested = runs.stream()
                .filter(sheet -> !sheet.state().outcome().isEmpty())
                .count();
        return tested == runs.size()
                ? "All done: " + passed + " of " + Count.inDigits(runs.size(), "drive") + " passed."
                : "Over: of " + Count.inDigits(runs.size(), "drive") + ", " + tested
                        + (tested == 1 ? " was tested and " : " were tested and ") + passed + " passed.";
    }

    private RunOrder again(Sheet sheet, boolean alone) {
        RunOrder was = sheet.order();
        String id = ids.get();
        List<String> words = new ArrayList<>(was.words());
        if (alone && !words.contains(ALONE)) {
            words.add(ALONE);
        }
        return new RunOrder(
                was.schema(),
                id,
                was.tray(),
                was.id(),
                clock.epochMillis(),
                words,
                was.drive(),
                was.place(),
                was.simulated(),
                was.session(),
                was.plan(),
                was.tag(),
                was.folder() + "-again-" + id.substring(id.length() - 6),
                was.links(),
                was.linkMbps(),
                was.meant(),
                was.remarks());
    }

    /**
     * It missed something, or came to no verdict, while another run of this computer worked or other drives on its bus moved data, and
     * was not asked again yet; or it failed so, and alone it came to no verdict once. What no other drive decided stands.
     */
    private static boolean toDoAgain(Sheet sheet, List<Sheet> all) {
        LiveState state = sheet.state();
        return state.stage() == LiveState.Stage.OVER
                && !state.outcome().isEmpty()
                && !state.outcome().equals(PASS)
                && !sheet.order().simulated()
                && (sheet.order().words().contains(ALONE) ? unsettled(sheet, all) : open(sheet, all));
    }

    private static boolean open(Sheet sheet, List<Sheet> all) {
        LiveState state = sheet.state();
        return !state.failedAlone() && (state.disturbed() || all.stream().anyMatch(other -> beside(sheet, other)));
    }

    private static boolean unsettled(Sheet sheet, List<Sheet> all) {
        return sheet.state().outcome().equals(NO_VERDICT)
                && failedBefore(sheet, all).isPresent()
                && timesAlone(sheet, all) < MOST_ALONE;
    }

    private static int timesAlone(Sheet sheet, List<Sheet> all) {
        boolean done = sheet.order().words().contains(ALONE)
                && !sheet.state().outcome().isEmpty();
        return (done ? 1 : 0)
                + before(sheet, all).map(earlier -> timesAlone(earlier, all)).orElse(0);
    }

    private static boolean beside(Sheet one, Sheet other) {
        LiveState a = one.state();
        LiveState b = other.state();
        return !one.order().id().equals(other.order().id())
                && a.workedMs() > 0
                && b.workedMs() > 0
                && b.workedMs() < a.saidMs()
                && a.workedMs() < (other.alive() ? Long.MAX_VALUE : b.saidMs());
    }
}
