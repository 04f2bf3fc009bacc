package tracksoak.report.record.facts.drill;

import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.ReadBackFacts;

/**
 * How the drive came back.
 *
 * @param waitedS from the pull until the drill's folder was found again, in s
 * @param node name of the device now, for example {@code sdc}
 * @param mount where its file system is mounted now
 * @param folder where the drill's folder is now
 * @param readOnly whether the file system refuses writes now, as after damage
 * @param marker whether the file that says whose the folder is survived
 * @param origin where the bytes read back came from
 */
public record DrillReturn(
        double waitedS,
        @Nullable String node,
        @Nullable String mount,
        String folder,
        boolean readOnly,
        boolean marker,
        ReadBackFacts.Origin origin) {}
