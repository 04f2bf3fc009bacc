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

    /** The runs of a tray as they count: of those done again only the last, in the order they were asked for. */
    public List<Sheet> runs(String tray) {
        return runs(tray, shelf.all());
    }

    private static List<Sheet> runs(String tray, List<Sheet> shelf) {
        List<Sheet> all = shelf.stream()
                .filter(sheet -> sheet.order().tray().equals(tray))
                .sorted(Comparator.comparingLong((Sheet sheet) -> sheet.order().askedMs())
                        .thenComparing(sheet -> sheet.order().id()))
                .toList();
        Set<String> replaced = all.stream().map(sheet -> sheet.order().again()).collect(Collectors.toSet());
        return all.stream()
                .filter(sheet -> !replaced.contains(sheet.order().id()))
                .toList();
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
        return runs(tray, all).stream().noneMatch(sheet -> sheet.alive() || toDoAgain(sheet, all) || sheet.cutShort());
    }

    /**
     * Looks after a tray: a run that missed something while others worked beside it, or used its bus, is asked again alone, for they may
     * have decided it.
     */
    public void lookAfter(String tray) {
        List<Sheet> all = shelf.all();
        for (Sheet sheet : runs(tray, all)) {
            if (toDoAgain(sheet, all) && shelf.first(sheet.order().id(), RunShelf.Once.AGAIN)) {
                start(again(sheet, true));
            }
        }
    }

    /** Goes on where a tray was when the power failed or its processes were killed. */
    public void goOn(String tray) {
        for (Sheet sheet : runs(tray)) {
            if (sheet.cutShort() && shelf.first(sheet.order().id(), RunShelf.Once.AGAIN)) {
                start(again(sheet, sheet.order().words().contains("--alone")));
            }
        }
    }

    /** Tells, once, that a tray is over; nothing before. */
    public void tellEnd(String tray, SystemNotice notice) {
        List<Sheet> runs = runs(tray);
        Optional<Sheet> last = runs.stream()
                .max(Comparator.comparingLong(sheet -> sheet.state().saidMs()));
        if (last.isPresent() && over(tray) && shelf.first(last.get().order().id(), RunShelf.Once.TOLD)) {
            notice.show(sentence(runs));
        }
    }

    /** How a tray is, in a sentence. */
    public static String sentence(List<Sheet> runs) {
        long going = runs.stream().filter(Sheet::alive).count();
        if (going > 0) {
            return Count.inDigits(going, "drive") + " of " + runs.size() + " still to be tested.";
        }
        if (runs.stream().anyMatch(Sheet::cutShort)) {
            return "The tray was cut short.";
        }
        long passed = runs.stream()
                .filter(sheet -> sheet.state().outcome().equals(PASS))
                .count();
        return "All done: " + passed + " of " + Count.inDigits(runs.size(), "drive") + " passed.";
    }

    private RunOrder again(Sheet sheet, boolean alone) {
        RunOrder was = sheet.order();
        String id = ids.get();
        List<String> words = new ArrayList<>(was.words());
        if (alone && !words.contains("--alone")) {
            words.add("--alone");
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
                was.linkMbps());
    }

    /**
     * It missed something, or came to no verdict, while another run of this computer worked or other drives on its bus moved data, and
     * was not asked again yet. What it missed while its bus was its own stands.
     */
    private static boolean toDoAgain(Sheet sheet, List<Sheet> all) {
        LiveState state = sheet.state();
        return state.stage() == LiveState.Stage.OVER
                && !state.outcome().isEmpty()
                && !state.outcome().equals(PASS)
                && !sheet.order().simulated()
                && !sheet.order().words().contains("--alone")
                && !state.failedAlone()
                && (state.disturbed() || all.stream().anyMatch(other -> beside(sheet, other)));
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
