package tracksoak.bench.command.qualify;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.Fields;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.JsonText;
import tracksoak.bench.tray.RunOrders.Ready;
import tracksoak.profiles.base.Inert;

/** What a tray would do: each drive, and which of them wait for each other. */
final class TrayDryRunText {

    private TrayDryRunText() {}

    static int print(List<Ready> drives, QualifyCommand command) {
        if (command.qualification.json.asked) {
            Map<String, Object> document = JsonOption.document("tray-dry-run/1");
            document.put("drives", drives.stream().map(TrayDryRunText::json).toList());
            command.console.out().println(JsonText.of(document));
            return Exit.DONE;
        }
        PrintWriter out = command.console.out();
        for (Ready one : drives) {
            out.println(Inert.whole(one.order().name()) + ":");
            DryRunText.print(one.would(), out);
            new Fields(out).addAll("to know", one.order().remarks());
            out.println();
        }
        out.println("Together, begun in this order:");
        together(drives).forEach(line -> out.println("  " + line));
        return Exit.DONE;
    }

    private static Map<String, Object> json(Ready one) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("tag", one.order().tag());
        json.put("path", one.order().place());
        json.put("links", one.order().links());
        json.put("remarks", one.order().remarks());
        json.put("dryRun", DryRunText.json(one.would()));
        return json;
    }

    /** A line for all that are on one link, in the order of the first of each. */
    static List<String> together(List<Ready> drives) {
        Map<List<String>, List<Ready>> onLink = new LinkedHashMap<>();
        List<String> alone = new ArrayList<>();
        for (Ready one : drives) {
            List<String> links = one.order().links();
            if (links == null) {
                alone.add(Inert.whole(one.order().name()));
            } else {
                onLink.computeIfAbsent(links, key -> new ArrayList<>()).add(one);
            }
        }
        List<String> lines = new ArrayList<>();
        onLink.values().forEach(group -> lines.add(line(group)));
        if (!alone.isEmpty()) {
            lines.add(String.join(", ", alone) + ": " + (alone.size() == 1 ? "alone" : "one after another, each alone")
                    + ", for nobody knows which link it shares");
        }
        return lines;
    }

    private static String line(List<Ready> group) {
        String names = String.join(
                ", ", group.stream().map(one -> Inert.whole(one.order().name())).toList());
        double shares = group.stream()
                .mapToDouble(one -> one.order().share(one.would().session()))
                .sum();
        return names + ": "
                + (group.size() == 1
                        ? "on a link of its own, beside the others as far as this computer carries them"
                        : "on one link; filled and read back one at a time, the takes "
                                + (shares <= 1 ? "side by side" : "as many at a time as the link carries"));
    }
}
