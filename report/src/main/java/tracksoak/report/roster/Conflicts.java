package tracksoak.report.roster;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import tracksoak.report.roster.identity.DriveId;
import tracksoak.report.roster.standing.DriveState;

/** Finds what about tags must be settled. Pure. */
final class Conflicts {

    private Conflicts() {}

    /** All conflicts among these drives. */
    static List<Conflict> among(Collection<DriveState> drives) {
        Map<String, TreeSet<String>> byTag = new TreeMap<>();
        List<Conflict> conflicts = new ArrayList<>();
        drives.stream()
                .filter(drive -> !DriveId.isLoose(drive.id()))
                .sorted(java.util.Comparator.comparing(DriveState::id))
                .forEach(drive -> {
                    List<String> tags = drive.tagNames();
                    tags.forEach(tag ->
                            byTag.computeIfAbsent(tag, t -> new TreeSet<>()).add(drive.id()));
                    if (tags.size() > 1) {
                        conflicts.add(new Conflict(
                                Conflict.Kind.DRIVE_UNDER_SEVERAL_TAGS,
                                tags,
                                List.of(drive.id()),
                                "One drive goes under the tags " + String.join(" and ", tags)
                                        + ": look which is on it, and settle it."));
                    }
                });
        byTag.forEach((tag, ids) -> {
            if (ids.size() > 1) {
                conflicts.add(new Conflict(
                        Conflict.Kind.TAG_ON_SEVERAL_DRIVES,
                        List.of(tag),
                        List.copyOf(ids),
                        "The tag " + tag + " is on " + ids.size() + " different drives: give all but one another."));
            }
        });
        return conflicts;
    }
}
