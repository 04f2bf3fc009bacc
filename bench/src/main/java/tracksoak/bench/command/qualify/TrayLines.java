package tracksoak.bench.command.qualify;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.JsonText;
import tracksoak.bench.command.console.Table;
import tracksoak.bench.job.OffSwitch;
import tracksoak.bench.phase.timeleft.AboutTime;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.bench.tray.LiveState;
import tracksoak.bench.tray.RunShelf;
import tracksoak.bench.tray.RunShelf.Sheet;
import tracksoak.bench.tray.SystemNotice;
import tracksoak.bench.tray.Tray;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.KebabCase;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.Verdict;

/** Watches a tray from a terminal: a line where something changed, and at the end one for each drive. */
final class TrayLines {

    private static final long LOOK_NS = 500_000_000;

    private final Tray tray;
    private final RunShelf shelf;
    private final QualifyCommand command;
    private final Map<String, String> shown = new HashMap<>();

    TrayLines(Tray tray, RunShelf shelf, QualifyCommand command) {
        this.tray = tray;
        this.shelf = shelf;
        this.command = command;
    }

    /** Until all of it is over; Ctrl-C stops the runs, too. */
    int watch(String id) {
        OffSwitch off = new OffSwitch();
        off.begins(() -> tray.runs(id).stream()
                .filter(Sheet::alive)
                .forEach(sheet -> shelf.stop(sheet.order().id())));
        return command.stop.during(off, command.console, () -> {
            while (!tray.over(id)) {
                if (!off.cancelled()) {
                    tray.lookAfter(id);
                }
                tray.runs(id).forEach(this::tell);
                if (tray.runs(id).stream().noneMatch(Sheet::alive)) {
                    break;
                }
                SystemClocks.PARK.waitUntil(SystemClocks.NANO.nanoTime() + LOOK_NS);
            }
            tray.tellEnd(id, SystemNotice.here());
            return end(tray.runs(id));
        });
    }

    private void tell(Sheet sheet) {
        LiveState state = sheet.state();
        String now = name(sheet) + ": " + words(sheet);
        String key = name(sheet)
                + state.stage()
                + state.waitsFor()
                + (state.progress() == null ? "" : state.progress().phase());
        if (!key.equals(shown.put(sheet.order().place(), key))) {
            command.console.say(Inert.whole(now));
        }
    }

    private static String name(Sheet sheet) {
        return sheet.order().name();
    }

    private static String words(Sheet sheet) {
        LiveState state = sheet.state();
        Progress progress = state.progress();
        return switch (state.stage()) {
            case BEGINS -> "begins";
            case WAITS -> "waits for " + state.waitsFor();
            case WORKS ->
                progress == null
                        ? "works"
                        : KebabCase.of(progress.phase())
                                + (progress.leftS() < 0 ? "" : ", " + AboutTime.of(progress.leftS()) + " left");
            case OVER -> outcome(sheet);
        };
    }

    private static String outcome(Sheet sheet) {
        return sheet.cutShort()
                ? "cut short"
                : sheet.state().outcome().isEmpty() ? "no run" : sheet.state().outcome();
    }

    private int end(List<Sheet> runs) {
        Console console = command.console;
        if (command.qualification.json.asked) {
            Map<String, Object> document = JsonOption.document("tray/1");
            document.put("drives", runs.stream().map(TrayLines::json).toList());
            console.out().println(JsonText.of(document));
        } else {
            Table table = new Table("DRIVE", "VERDICT", "WHY");
            runs.forEach(sheet ->
                    table.row(name(sheet), outcome(sheet), sheet.state().sentence()));
            table.print(console);
        }
        return code(runs);
    }

    private static Map<String, Object> json(Sheet sheet) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("tag", sheet.order().tag());
        json.put("path", sheet.order().place());
        json.put("drive", sheet.order().drive());
        json.put("outcome", outcome(sheet));
        json.put("sentence", sheet.state().sentence());
        json.put(
                "askedAgainAlone",
                !sheet.order().again().isEmpty() && sheet.order().words().contains("--alone"));
        json.put("folder", sheet.order().folder());
        return json;
    }

    /** The worst of all: FAIL, then what could not run, then NO VERDICT. */
    private static int code(List<Sheet> runs) {
        List<String> outcomes = new ArrayList<>();
        runs.forEach(sheet -> outcomes.add(outcome(sheet)));
        if (outcomes.contains("FAIL")) {
            return Exit.of(Verdict.Outcome.FAIL);
        }
        if (outcomes.contains("no run") || outcomes.contains("cut short")) {
            return Exit.COULD_NOT_RUN;
        }
        return outcomes.contains("NO VERDICT") ? Exit.of(Verdict.Outcome.NO_VERDICT) : Exit.DONE;
    }
}
