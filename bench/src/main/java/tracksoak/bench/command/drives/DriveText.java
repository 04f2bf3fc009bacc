package tracksoak.bench.command.drives;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.command.console.Fields;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.drive.find.Suitability;
import tracksoak.bench.job.Drives;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Quantity;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.DriveFacts;

/** A drive in words and as JSON. Whatever it says of itself is made harmless when it is printed. */
public final class DriveText {

    private DriveText() {}

    static String link(DriveFacts facts) {
        if (facts.linkMbps() == null) {
            return "unknown";
        }
        return Quantity.plain(facts.linkMbps()) + " Mbit/s" + (facts.linkSuspect() ? " or unknown" : "");
    }

    public static String bytes(@Nullable Long bytes) {
        return bytes == null ? "unknown" : Units.bytes(bytes);
    }

    public static String known(@Nullable String word) {
        return word == null || word.isBlank() ? "unknown" : word;
    }

    static String yes(@Nullable Boolean value) {
        return value == null ? "unknown" : value ? "yes" : "no";
    }

    /** What speaks against using it, in a few words; empty if nothing does. */
    static String remark(FoundDrive drive) {
        List<String> remarks = new ArrayList<>();
        if (Boolean.TRUE.equals(drive.facts().system())) {
            remarks.add("the computer's own");
        }
        if (drive.place() == FoundDrive.Place.SPREAD || drive.place() == FoundDrive.Place.ARRAY) {
            remarks.add("several drives at once");
        }
        if (drive.readOnly()) {
            remarks.add("read-only");
        }
        if (Suitability.dirty(drive.facts())) {
            remarks.add(Suitability.NOT_IN_ORDER);
        }
        if (!drive.mounted()) {
            remarks.add("not mounted");
        }
        return String.join(", ", remarks);
    }

    /** All that is known of one drive. */
    static void print(FoundDrive drive, PrintWriter out) {
        DriveFacts facts = drive.facts();
        out.println(Inert.whole(Drives.name(facts)));
        new Fields(out)
                .add("serial", known(facts.serial()))
                .add("size", bytes(facts.sizeBytes()))
                .add("bus", known(TradeName.orNull(facts.bus())))
                .add("link", link(facts))
                .add("removable", yes(facts.removable()))
                .add("spinning", yes(facts.rotational()))
                .add("computer's own", yes(facts.system()))
                .add("device", known(facts.node()))
                .add("mounted at", facts.mount() == null ? "not mounted" : facts.mount())
                .add(
                        "file system",
                        known(TradeName.orNull(facts.fileSystem())) + (drive.readOnly() ? ", read-only" : ""))
                .add("its size", bytes(facts.fileSystemBytes()))
                .add("free", bytes(facts.freeBytes()))
                .add("partition table", known(TradeName.orNull(facts.volume().scheme())))
                .add("label", known(facts.volume().label()))
                .add(
                        "left in order",
                        facts.volume().dirty() == null
                                ? "unknown"
                                : facts.volume().dirty() ? "no: " + Suitability.MEND : "yes")
                .add("cluster", facts.clusterBytes() == null ? "unknown" : facts.clusterBytes() + " B");
        String todo = drive.toMount();
        if (todo != null) {
            out.println("  " + Inert.whole(todo));
        }
        for (String check : facts.checkByHand()) {
            out.println("  check by hand: " + Inert.whole(check));
        }
    }

    static Map<String, Object> json(FoundDrive drive) {
        DriveFacts facts = drive.facts();
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("place", drive.place());
        json.put("maker", facts.maker());
        json.put("model", facts.model());
        json.put("serial", facts.serial());
        json.put("sizeBytes", facts.sizeBytes());
        json.put("bus", facts.bus());
        json.put("linkMbps", facts.linkMbps());
        json.put("linkSuspect", facts.linkSuspect());
        json.put("removable", facts.removable());
        json.put("rotational", facts.rotational());
        json.put("system", facts.system());
        json.put("node", facts.node());
        json.put("mount", facts.mount());
        json.put("readOnly", drive.readOnly());
        json.put("toMount", drive.toMount());
        json.put("fileSystem", facts.fileSystem());
        json.put("fileSystemBytes", facts.fileSystemBytes());
        json.put("freeBytes", facts.freeBytes());
        json.put("clusterBytes", facts.clusterBytes());
        json.put("port", facts.port());
        json.put("volume", facts.volume());
        json.put("checkByHand", facts.checkByHand());
        return json;
    }
}
