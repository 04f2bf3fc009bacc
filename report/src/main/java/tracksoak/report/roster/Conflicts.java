package tracksoak.report.roster;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import tracksoak.profiles.base.Count;
import tracksoak.report.roster.identity.DriveId;
import tracksoak.report.roster.identity.DriveIdentity;

/** Finds what about tags must be settled. Pure. */
final class Conflicts {

    private Conflicts() {}

    /** All conflicts among these drives. */
    static List<Conflict> among(Collection<KnownDrive> drives) {
        Map<String, String> firstWith = new HashMap<>();
        TreeMap<String, TreeSet<String>> shared = new TreeMap<>();
        TreeMap<String, KnownDrive> several = new TreeMap<>();
        for (KnownDrive drive : drives) {
            if (drive.loose()) {
                if (drive.tags().size() > 1) {
                    several.put(drive.id(), drive);
                }
                continue;
            }
            for (String tag : drive.tags()) {
                String first = firstWith.putIfAbsent(tag, drive.id());
                if (first != null) {
                    shared.computeIfAbsent(tag, t -> new TreeSet<>()).addAll(List.of(first, drive.id()));
                }
            }
            if (drive.tags().size() > 1) {
                several.put(drive.id(), drive);
            }
        }
        List<Conflict> conflicts = new ArrayList<>();
        several.forEach((id, drive) -> conflicts.add(new Conflict(
                Conflict.Kind.DRIVE_UNDER_SEVERAL_TAGS,
                drive.tags(),
                drive.loose() ? drive.tagged() : List.of(id),
                "One " + (drive.loose() ? "record" : "drive") + " goes under the tags "
                        + Count.list(drive.tags()) + ": look which is on "
                        + (drive.loose() ? "its drive" : "it") + ", and settle it with roster settle.",
                drive.tags().stream()
                        .map(tag -> new Conflict.Way(tag, drive.loose() ? drive.tagged(tag) : id))
                        .toList())));
        shared.forEach((tag, ids) -> conflicts.add(new Conflict(
                Conflict.Kind.TAG_ON_SEVERAL_DRIVES,
                List.of(tag),
                List.copyOf(ids),
                "The tag " + tag + " is on " + ids.size()
                        + " different drives: look which bears it, and settle it with roster settle.",
                ids.stream().map(id -> new Conflict.Way(tag, id)).toList())));
        return conflicts;
    }

    /** What would have to be settled if a drive were entered under a tag. */
    static List<Conflict> ifTagged(Collection<KnownDrive> drives, DriveIdentity identity, String tag) {
        String id = DriveId.of(identity, tag, "");
        List<Conflict> conflicts = new ArrayList<>();
        List<KnownDrive> others = drives.stream()
                .filter(drive ->
                        !drive.loose() && !drive.id().equals(id) && drive.tags().contains(tag))
                .sorted(Comparator.comparing(KnownDrive::id))
                .toList();
        if (!others.isEmpty()) {
            conflicts.add(new Conflict(
                    Conflict.Kind.TAG_ON_SEVERAL_DRIVES,
                    List.of(tag),
                    Stream.concat(others.stream().map(KnownDrive::id), Stream.of(id))
                            .sorted()
                            .toList(),
                    "The roster has the tag " + tag
                            + (others.size() == 1 ? " on another drive, " : " on other drives, ")
                            + Count.list(others.stream()
                                    .map(drive -> drive.title() + " (" + drive.id() + ")")
                                    .toList())
                            + ": give this one a tag of its own, or settle it after the run.",
                    List.of()));
        }
        drives.stream()
                .filter(drive -> drive.id().equals(id)
                        && !drive.untagged()
                        && !drive.tags().contains(tag))
                .forEach(drive -> conflicts.add(new Conflict(
                        Conflict.Kind.DRIVE_UNDER_SEVERAL_TAGS,
                        Stream.concat(drive.tags().stream(), Stream.of(tag))
                                .sorted()
                                .toList(),
                        List.of(id),
                        "The roster knows this drive as " + Count.list(drive.tags()) + ", not as " + tag
                                + ": look which tag is on it, or settle it after the run.",
                        List.of())));
        return conflicts;
    }

    /** The conflicts of each drive that has any. */
    static Map<String, List<Conflict>> byDrive(List<Conflict> conflicts) {
        Map<String, List<Conflict>> byDrive = new HashMap<>();
        conflicts.forEach(conflict -> conflict.drives()
                .forEach(id ->
                        byDrive.computeIfAbsent(id, key -> new ArrayList<>()).add(conflict)));
        return byDrive;
    }
}
